import { expect, test } from 'vitest';
import { ticks } from './scale';

test('a chart has lines at round places up to its end', () => {
  expect(ticks(1000, 5)).toEqual([0, 200, 400, 600, 800, 1000]);
  expect(ticks(930, 5)).toEqual([0, 200, 400, 600, 800]);
  expect(ticks(0.7, 4).map((tick) => tick.toFixed(1))).toEqual(['0.0', '0.2', '0.4', '0.6']);
});

test('a chart of nothing has its zero', () => {
  expect(ticks(0, 5)).toEqual([0]);
});
