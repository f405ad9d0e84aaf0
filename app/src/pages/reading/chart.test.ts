import { describe, expect, test } from 'vitest';
import { dayNumber } from '../../parts/day_numbers';
import type { ReadingLine, ReadingWorking } from '../../wire/contract';
import { drawing } from './chart';

const FRAME = { left: 0, right: 300, top: 0, bottom: 100 };
const day = (index: number) => new Date((dayNumber('2026-12-01') + index) * 86_400_000).toISOString().slice(0, 10);

// Falls from 6 by 0.02 a day over 21 days; the next limit, 5.5, comes after five more.
const LINE: ReadingLine = {
  ...{ task: 'air', title: 'Read the air', assembly: 'air', what: 'supply air', unit: 'bar', count: 21 },
  ...{ warning: { min: 5.5 }, action: { min: 5, max: 60 } },
};
const BARE: ReadingWorking = {
  ...{ now: '2026-12-21T06:00:00Z', machine: 'm01', reading: LINE, points: [], crossings: [] },
  days: Array.from({ length: 21 }, (_, index) => ({
    date: day(index),
    value: 6 - 0.02 * index,
    out: index === 20 ? (['one beyond 3'] as const).slice() : [],
  })),
};
const AIR: ReadingWorking = {
  ...BARE,
  reading: {
    ...{ ...LINE, direction: 'falling', slope: -0.02 },
    crossing: {
      ...{ limit: 'warning', side: 'below', at: 5.5, beyond: false },
      ...{ first: day(23), median: day(25), last: day(60) },
    },
  },
  chart: { mean: 5.8, mean_range: 0.02, sigma: 0.018, lower: 5.746, upper: 5.854 },
  trend: {
    ...{ direction: 'falling', slope: -0.02, slope_low: -0.02, slope_high: -0.02, begins_at: 6 },
    ...{ s: -210, p: 0.0001, exact: false, drift: -0.02, scatter: 0.01 },
  },
};

describe('the chart of a reading', () => {
  const drawn = drawing(AIR, FRAME, dayNumber(day(20)));
  const last = drawn.days.at(-1);

  test('begins with the first day and goes on past the crossing', () => {
    expect(drawn.days[0]).toEqual({ x: 0, y: 0, isOut: false });
    expect(drawn.crossing?.x).toBeGreaterThan(last?.x ?? 300);
    expect(drawn.crossing?.x).toBeLessThan(300);
    expect(drawn.crossing?.to).toBe(300);
  });
  test('rings what is out of the ordinary', () => expect(drawn.days.filter(({ isOut }) => isOut)).toEqual([last]));
  test('draws the limit that comes and leaves out one that is far away', () => {
    expect(drawn.limits.map(({ at }) => at)).toContain(5.5);
    expect(drawn.limits.map(({ at }) => at)).not.toContain(60);
  });
  test('draws the trend from the first to the last day shown', () => {
    expect(drawn.trend).toMatchObject({ x1: 0, y1: 0, x2: 300 });
    expect(drawn.trend?.y2).toBeGreaterThan(last?.y ?? 100);
  });
  test('holds one day, and days that are all alike', () => {
    const one = drawing({ ...BARE, days: BARE.days.slice(0, 1) }, FRAME, dayNumber(day(0)));
    for (const { x, y } of one.days) expect([x, y].every(Number.isFinite)).toBe(true);
    const alike = BARE.days.map((each) => ({ ...each, value: 6 }));
    const flat = drawing({ ...BARE, days: alike }, FRAME, dayNumber(day(20)));
    for (const { y } of flat.days) expect(Number.isFinite(y)).toBe(true);
  });
});
