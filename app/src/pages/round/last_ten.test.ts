import { expect, test } from 'vitest';
import type { CheckValue, TaskReading } from '../../wire/contract';
import { lastTen } from './last_ten';

const air: TaskReading = { what: 'air', unit: 'bar', warning: { min: 5.5 }, action: { min: 5 } };
const value = (number: number): CheckValue => ({ value: number, state: 'as it should be', at: '', by: '' });
const place = { width: 300, height: 100 };

test('higher values stand higher, older ones farther left, and all are inside', () => {
  const { marks, limits } = lastTen(air, [value(6), value(5.2), value(7)], null, place, 60);
  expect(marks.map((one) => one.x)).toEqual(marks.map((one) => one.x).toSorted((a, b) => a - b));
  expect(marks[2]?.y).toBeLessThan(marks[0]?.y ?? 0);
  for (const { y } of [...marks, ...limits]) {
    expect(y).toBeGreaterThanOrEqual(0);
    expect(y).toBeLessThanOrEqual(place.height);
  }
});
test('limits are drawn where they are, the new reading after the last', () => {
  const { marks, fresh, limits } = lastTen(air, [value(6)], { value: 5, state: 'warning' }, place, 60);
  expect(limits.map((one) => [one.kind, one.at])).toEqual([
    ['action', 5],
    ['warning', 5.5],
  ]);
  expect(fresh?.y).toBe(limits[0]?.y);
  expect(fresh?.x).toBeGreaterThan(marks[0]?.x ?? 0);
});
test('the same value again and no limit at all still have a place', () => {
  const { marks } = lastTen({ what: 'pH', unit: 'pH' }, [value(9), value(9)], null, place, 0);
  expect(marks.every((one) => Number.isFinite(one.x) && Number.isFinite(one.y))).toBe(true);
  expect(lastTen(air, [], null, place, 0).marks).toEqual([]);
});
