import { expect, test } from 'vitest';
import { dateOfNumber, dayNumber, isWeekend, weekdayOf, weekOfYear } from './day_numbers';

test('a date comes back from its number, over leap days and years', () => {
  for (const date of ['1969-12-31', '1970-01-01', '2024-02-29', '2026-03-29', '2026-12-31', '2100-02-28'])
    expect(dateOfNumber(dayNumber(date))).toBe(date);
  expect(dayNumber('2024-03-01') - dayNumber('2024-02-28')).toBe(2);
});

test('weekdays begin on Monday', () => {
  expect(weekdayOf(dayNumber('2026-11-23'))).toBe(0);
  expect(weekdayOf(dayNumber('2026-11-29'))).toBe(6);
  expect(weekdayOf(dayNumber('1969-12-29'))).toBe(0);
  expect([27, 28, 29, 30].map((day) => isWeekend(dayNumber(`2026-11-${day}`)))).toEqual([false, true, true, false]);
});

// Values of the table in ISO 8601's own examples for the turn of a year, from memory, checked with `date +%V`.
test.each([
  ['2026-01-01', 1],
  ['2026-12-31', 53],
  ['2027-01-03', 53],
  ['2027-01-04', 1],
  ['2024-12-30', 1],
  ['2023-01-01', 52],
])('%s lies in week %i', (date, week) => expect(weekOfYear(dayNumber(date))).toBe(week));
