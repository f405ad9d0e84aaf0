// What every row of the Horizon is drawn on: shaded days, lines of months or weeks, today.

import { leftOfDay, monthsOf, shadesOf, weeksOf } from './axis';
import type { Axis } from './axis';
import { linesPath, shadePath } from './shapes';

export interface Ground {
  width: number;
  weekends: string;
  closed: string;
  lines: string;
  today: string;
}

const WEEK_LINES_PX = 30;

/** @param closed day numbers */
export function groundOf(axis: Axis, closed: ReadonlySet<number>): Ground {
  const shades = shadesOf(axis, closed);
  const weeks = weeksOf(axis);
  const spans = axis.dayWidth * 7 >= WEEK_LINES_PX ? weeks : monthsOf(axis);
  return {
    width: axis.width,
    weekends: shadePath(shades.filter((shade) => !shade.isClosed)),
    closed: shadePath(shades.filter((shade) => shade.isClosed)),
    lines: linesPath(spans.slice(1).map(({ x }) => x)),
    today: linesPath([leftOfDay(axis, axis.today)]),
  };
}
