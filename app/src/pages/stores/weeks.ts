// A part's weeks as a drawing and as a sentence: what is expected to be left, and what is left with a chance of 95 %.

import type { StockWeek } from '../../wire/contract';
import { ticks } from '../lives/scale';

export interface Frame {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

export interface WeeksDrawn {
  /** Of each week's end; `begins` is where the week begins. */
  points: Array<{ begins: number; x: number; left: number; edge: number; from: string; arrives: boolean }>;
  /** What is expected to be left. */
  line: string;
  /** Between that and what is left with a chance of 95 %. */
  band: string;
  zero: number;
  /** Round amounts for lines of reference, nothing among them. */
  amounts: number[];
  y: (amount: number) => number;
}

const path = (points: ReadonlyArray<readonly [number, number]>) =>
  points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L');

/** Of one step over the whole range, so that none stands on another. */
function roundAmounts(least: number, most: number): number[] {
  const step = ticks(most - least, 4)[1] ?? most - least;
  const [first, last] = [Math.ceil(least / step - 1e-9), Math.floor(most / step + 1e-9)];
  return Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step);
}

/** @param now what the book says today; below 0: so much more was taken than it had */
export function drawnWeeks(weeks: readonly StockWeek[], now: number, frame: Frame): WeeksDrawn {
  const amounts = weeks.flatMap(({ left, left_5 }) => [left, left_5]);
  const [least, top] = [Math.min(0, now, ...amounts), Math.max(0, now, ...amounts)];
  const most = top === least ? least + 1 : top;
  const x = (index: number) => frame.left + ((index + 1) / Math.max(1, weeks.length)) * (frame.right - frame.left);
  const y = (amount: number) => frame.bottom - ((amount - least) / (most - least)) * (frame.bottom - frame.top);
  const points = weeks.map(({ from, left, left_5, arriving }, index) => ({
    ...{ begins: x(index - 1), x: x(index), left: y(left), edge: y(left_5), from, arrives: arriving > 0 },
  }));
  const start = [frame.left, y(now)] as const;
  const expected = [start, ...points.map((one) => [one.x, one.left] as const)];
  const edge = [start, ...points.map((one) => [one.x, one.edge] as const)];
  return {
    ...{ points, line: `M${path(expected)}`, band: `M${path(expected)}L${path(edge.reverse())}Z` },
    ...{ zero: y(0), amounts: roundAmounts(least, most), y },
  };
}

/** When the part runs out: in which week it is expected to, else in which it may, with a chance of 5 %. */
export type Outlook = { is: 'lacks' | 'may lack'; from: string } | { is: 'lasts'; weeks: number } | { is: 'not used' };

/** Amounts this near to nothing are nothing. */
const NEAR = 1e-9;

export function outlookOf(weeks: readonly StockWeek[]): Outlook {
  if (weeks.length === 0) return { is: 'not used' };
  const lacks = weeks.find(({ left }) => left < -NEAR);
  const may = weeks.find(({ left_5 }) => left_5 < -NEAR);
  if (lacks !== undefined && lacks === may) return { is: 'lacks', from: lacks.from };
  if (may !== undefined) return { is: 'may lack', from: may.from };
  return { is: 'lasts', weeks: weeks.length };
}
