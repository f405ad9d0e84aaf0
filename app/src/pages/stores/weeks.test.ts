import { expect, test } from 'vitest';
import type { StockWeek } from '../../wire/contract';
import { drawnWeeks, outlookOf } from './weeks';

const week = (from: string, left: number, left_5: number, arriving = 0): StockWeek => ({
  ...{ from, certain: 0, mean: 0, use_50: 0, use_95: 0, arriving, left, left_5 },
});
const FRAME = { left: 0, right: 100, top: 0, bottom: 40 };

test('the line begins with what is there today and goes from week to week', () => {
  const drawn = drawnWeeks([week('2026-11-23', 2, 0), week('2026-11-30', 4, 2, 4)], 4, FRAME);
  expect(drawn.line).toBe('M0.0 0.0L50.0 20.0L100.0 0.0');
  expect(drawn.band).toBe('M0.0 0.0L50.0 20.0L100.0 0.0L100.0 20.0L50.0 40.0L0.0 0.0Z');
  expect(drawn.zero).toBe(40);
  expect(drawn.points.map(({ arrives }) => arrives)).toEqual([false, true]);
});
test('what lacks lies below the line of nothing', () => {
  const drawn = drawnWeeks([week('2026-11-23', -1, -3)], 1, FRAME);
  expect(drawn.zero).toBe(10);
  expect(drawn.points[0]?.edge).toBe(40);
});
test('amounts of reference have one step over what lies above and below nothing', () => {
  expect(drawnWeeks([week('2026-11-23', -1, -37)], 3, FRAME).amounts).toEqual([-30, -20, -10, 0]);
  expect(drawnWeeks([week('2026-11-23', 1, 0.5)], 2, FRAME).amounts).toEqual([0, 0.5, 1, 1.5, 2]);
});
test('nothing at all is a line at nothing', () => {
  expect(drawnWeeks([week('2026-11-23', 0, 0)], 0, FRAME).line).toBe('M0.0 40.0L100.0 40.0');
});
test('a part lacks, may lack, lasts, or is not used', () => {
  expect(outlookOf([week('a', 1, 0), week('b', -1, -2)])).toEqual({ is: 'lacks', from: 'b' });
  expect(outlookOf([week('a', 1, -1), week('b', -1, -2)])).toEqual({ is: 'may lack', from: 'a' });
  expect(outlookOf([week('a', 1, 0)])).toEqual({ is: 'lasts', weeks: 1 });
  expect(outlookOf([])).toEqual({ is: 'not used' });
});
