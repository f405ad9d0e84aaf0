import { expect, test } from 'vitest';
import type { GroupPlant } from '../../wire/contract';
import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import { plantTold, TOLD_AT } from './told';
import { shadeOf, stepTo, weekTable } from './weeks';

/** A plant with one task of 90 minutes in each of the thirteen weeks from a Monday on. */
function withWeeks(key: string, monday: string, more: Partial<GroupPlant> = {}): GroupPlant {
  const weeks = Array.from({ length: 13 }, (_, index) => ({
    week_on: dateOfNumber(dayNumber(monday) + 7 * index),
    tasks: 1,
    minutes: 90,
  }));
  return plantTold(key, [], { line: { as_of: TOLD_AT, machines: [], weeks, visits: [] }, ...more });
}

test('a row a plant by title, and totals of all', () => {
  const table = weekTable([
    withWeeks('b', '2026-11-23'),
    withWeeks('a', '2026-11-23'),
    plantTold('c', [], { line: null }),
  ]);
  expect(table?.rows.map(({ plant }) => plant.key)).toEqual(['a', 'b', 'c']);
  expect(table?.rows[2]?.weeks).toBeNull();
  expect([table?.mondays.length, table?.mondays[0], table?.mondays[12]]).toEqual([13, '2026-11-23', '2027-02-15']);
  expect(table?.totals).toEqual(Array.from({ length: 13 }, () => ({ tasks: 2, hours: 3 })));
  expect(table?.hoursMax).toBe(1.5);
});

test('what was due in a week that is over is due in the first week of the table', () => {
  const table = weekTable([withWeeks('late', '2026-11-16'), withWeeks('now', '2026-11-23')]);
  const late = table?.rows[0]?.weeks;
  expect(late?.[0]).toEqual({ tasks: 2, hours: 3 });
  expect(late?.[12]).toEqual({ tasks: 0, hours: 0 });
});

test('without a plant of which something was told there is no table', () => {
  expect(weekTable([])).toBeNull();
  expect(weekTable([plantTold('a', [], { line: null })])).toBeNull();
});

test('the more hours, the darker, in four steps', () => {
  expect([0, 0.1, 2.5, 5, 7.5, 10].map((hours) => shadeOf(hours, 10))).toEqual([0, 1, 1, 2, 3, 4]);
  expect(shadeOf(0, 0)).toBe(0);
});

test('arrow keys lead from number to number and stay within the table', () => {
  expect(stepTo({ row: 0, column: 0 }, 'ArrowRight', 3)).toEqual({ row: 0, column: 1 });
  expect(stepTo({ row: 0, column: 0 }, 'ArrowUp', 3)).toEqual({ row: 0, column: 0 });
  expect(stepTo({ row: 1, column: 4 }, 'PageDown', 3)).toEqual({ row: 2, column: 4 });
  expect(stepTo({ row: 1, column: 4 }, 'End', 3)).toEqual({ row: 1, column: 13 });
  expect(stepTo({ row: 1, column: 4 }, 'Home', 3)).toEqual({ row: 1, column: 0 });
  expect(stepTo({ row: 1, column: 4 }, 'a', 3)).toBeUndefined();
});
