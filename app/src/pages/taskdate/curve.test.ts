import { describe, expect, test } from 'vitest';
import { dayNumber } from '../../parts/day_numbers';
import type { TriggerWorking } from '../../wire/contract';
import { chanceOn, chancesOf, rowsOf, spanOf } from './curve';

const none = { p05: null, p10: null, p25: null, p50: null, p75: null, p90: null, p95: null };
const today = dayNumber('2026-11-25');
const chances = [
  { date: '2026-12-01', chance: 0.1 },
  { date: '2026-12-03', chance: 0.5 },
  { date: '2026-12-08', chance: 0.9 },
  { date: '2026-12-14', chance: 1 },
];

test('the steps of a counter are those that the server gives', () => {
  const steps = chancesOf({ quantiles: none, basis: '', chances });
  expect(steps.map(({ chance }) => chance)).toEqual([0.1, 0.5, 0.9, 1]);
  expect(chanceOn(steps, dayNumber('2026-11-30'))).toBe(0);
  expect(chanceOn(steps, dayNumber('2026-12-05'))).toBe(0.5);
  expect(chanceOn(steps, dayNumber('2027-12-05'))).toBe(1);
});

test('a calendar date is one step, never one without date', () => {
  const calendar: TriggerWorking = { calendar: '12 months', quantiles: { ...none, p50: '2027-01-08' }, basis: '' };
  expect(chancesOf(calendar)).toEqual([{ day: dayNumber('2027-01-08'), chance: 1 }]);
  expect(chancesOf({ quantiles: none, basis: '' })).toEqual([]);
});

describe('the drawing', () => {
  const steps = chancesOf({ quantiles: none, basis: '', chances });
  test('holds what is uncertain', () => {
    const { from, to } = spanOf(steps, today);
    expect(from).toBeLessThanOrEqual(dayNumber('2026-12-01'));
    expect(from).toBeGreaterThanOrEqual(today);
    expect(to).toBeGreaterThan(dayNumber('2026-12-14'));
  });
  test('ends where it is certain, however late the last step', () => {
    const certain = [...steps, { day: today + 900, chance: 1 }];
    expect(spanOf(certain, today).to).toBeLessThan(today + 60);
  });
  test('is some days wide even when all is certain or nothing is known', () => {
    for (const some of [[{ day: today, chance: 1 }], [{ day: today + 400, chance: 1 }], []]) {
      const { from, to } = spanOf(some, today);
      expect(to - from).toBeGreaterThanOrEqual(13);
    }
  });
});

test('the table says when the chance passes round numbers, each day once', () => {
  const rows = rowsOf(chancesOf({ quantiles: none, basis: '', chances }));
  expect(rows.map(({ date }) => date)).toEqual(['2026-12-01', '2026-12-03', '2026-12-08', '2026-12-14']);
});
