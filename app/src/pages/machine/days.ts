// A counter's days as what is drawn and read: three parts that do not overlap. `unknown_h` of the contract holds the
// filled time too; drawn is only what stays unknown. For a counter that is not in hours (revolutions, metres) unknown
// time cannot stand on the same scale: it is in the table and not in the bars.

import type { CounterDays } from '../../wire/contract';

export interface DayParts {
  date: string;
  counted: number;
  filled: number;
  /** Hours; still unknown after filling where the counter counts hours. */
  unknown: number;
}

export function partsOf(days: CounterDays): DayParts[] {
  const inOrder = days.days.toSorted((a, b) => (a.date < b.date ? -1 : 1));
  return inOrder.map(({ date, counted, filled, unknown_h }) => ({
    date,
    counted,
    filled,
    unknown: days.unit === 'h' ? Math.max(0, unknown_h - filled) : unknown_h,
  }));
}

export interface DaySums {
  sum: number;
  unknown: number;
}

export function sumOf(parts: readonly DayParts[]): DaySums {
  return parts.reduce(
    (sums, part) => ({ sum: sums.sum + part.counted + part.filled, unknown: sums.unknown + part.unknown }),
    {
      sum: 0,
      unknown: 0,
    },
  );
}

/** For bars drawn one over the other: the tops, from the highest to the lowest. */
export function stacked(
  parts: readonly DayParts[],
  unit: string,
): [unknown: number[], filled: number[], counted: number[]] {
  return [
    parts.map((part) => part.counted + part.filled + (unit === 'h' ? part.unknown : 0)),
    parts.map((part) => part.counted + part.filled),
    parts.map((part) => part.counted),
  ];
}
