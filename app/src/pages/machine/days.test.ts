import { expect, test } from 'vitest';
import type { CounterDays } from '../../wire/contract';
import { partsOf, stacked, sumOf } from './days';

const days = (unit: string): CounterDays => ({
  machine: 'm01',
  counter: 'operating',
  unit,
  days: [
    { date: '2026-11-23', counted: 10, unknown_h: 4, filled: 3 },
    { date: '2026-11-24', counted: 12, unknown_h: 0, filled: 0 },
  ],
});

test('filled time is no longer unknown', () => {
  expect(partsOf(days('h')).map((part) => part.unknown)).toEqual([1, 0]);
  expect(sumOf(partsOf(days('h')))).toEqual({ sum: 25, unknown: 1 });
});
test('bars stand on each other: counted, filled, unknown', () => {
  expect(stacked(partsOf(days('h')), 'h')).toEqual([
    [14, 12],
    [13, 12],
    [10, 12],
  ]);
});
test('hours of unknown time are not drawn on a scale of metres', () => {
  const parts = partsOf(days('m'));
  expect(parts[0]?.unknown).toBe(4);
  expect(stacked(parts, 'm')[0]).toEqual([13, 12]);
});
