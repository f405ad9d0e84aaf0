// Where the last readings, the new one and the limits stand on the small chart, in pixels. Older to newer from left to
// right at even distances: what counts is the trend from round to round, not the hours between.

import type { CheckValue, ReadingState, TaskReading } from '../../wire/contract';

export interface Mark {
  x: number;
  y: number;
  state: ReadingState;
}

export interface LimitLine {
  kind: 'warning' | 'action';
  at: number;
  y: number;
}

export interface LastTen {
  marks: Mark[];
  fresh: Mark | null;
  limits: LimitLine[];
}

export interface Place {
  width: number;
  height: number;
}

const SIDE_PX = 14;
const EDGE_PX = 12;

function limitsOf(reading: TaskReading): Array<Omit<LimitLine, 'y'>> {
  return (['action', 'warning'] as const).flatMap((kind) =>
    [reading[kind]?.min, reading[kind]?.max].flatMap((at) => (at === undefined ? [] : [{ kind, at }])),
  );
}

/** @param right pixels that the limits' words take on the right */
export function lastTen(
  reading: TaskReading,
  last: readonly CheckValue[],
  fresh: { value: number; state: ReadingState } | null,
  place: Place,
  right: number,
): LastTen {
  const limits = limitsOf(reading);
  const values = [...last, ...(fresh ? [fresh] : [])];
  const all = [...values.map((one) => one.value), ...limits.map((one) => one.at)];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const span = high - low || 1;
  const y = (value: number) => EDGE_PX + (1 - (value - low) / span) * (place.height - 2 * EDGE_PX);
  const step = (place.width - right - 2 * SIDE_PX) / Math.max(1, last.length);
  const marks = values.map(({ value, state }, index) => ({ x: SIDE_PX + index * step, y: y(value), state }));
  return {
    marks: marks.slice(0, last.length),
    fresh: fresh ? (marks.at(-1) ?? null) : null,
    limits: limits.map((one) => ({ ...one, y: y(one.at) })),
  };
}
