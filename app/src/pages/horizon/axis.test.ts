import { expect, test } from 'vitest';
import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import { axisOf, dayAt, daysOf, leftOfDay, middleOfDay, monthsOf, shadesOf, WEEKS, weeksOf } from './axis';

const wednesday = dayNumber('2026-11-25');
const axis = axisOf(wednesday, 13, 968, 58);

const total = (spans: Array<{ width: number }>) => spans.reduce((sum, span) => sum + span.width, 0);

test('thirteen weeks fill the plot behind what is due now', () => {
  expect(axis.dayWidth).toBe(10);
  expect(leftOfDay(axis, wednesday)).toBe(58);
  expect(leftOfDay(axis, wednesday + 91)).toBe(968);
  expect(middleOfDay(axis, wednesday)).toBe(63);
});

test('a place gives its day back', () => {
  for (const days of [0, 1, 45, 90]) expect(dayAt(axis, middleOfDay(axis, wednesday + days))).toBe(wednesday + days);
  expect(dayAt(axis, 57)).toBeNull();
  expect(dayAt(axis, 968)).toBe(wednesday + 90);
});

test.each(WEEKS)('months and weeks of %i weeks cover every day once', (weeks) => {
  const long = axisOf(wednesday, weeks, 1000, 60);
  expect(total(monthsOf(long))).toBeCloseTo(940);
  expect(total(weeksOf(long))).toBeCloseTo(940);
});

test('the first week and month are cut at today', () => {
  expect(weeksOf(axis)[0]).toEqual({ x: 58, width: 50, number: 48 });
  expect(weeksOf(axis).map((week) => week.number)).toEqual([48, 49, 50, 51, 52, 53, 1, 2, 3, 4, 5, 6, 7, 8]);
  expect(monthsOf(axis).map((month) => month.date)).toEqual(['2026-11-25', '2026-12-01', '2027-01-01', '2027-02-01']);
});

test('days are named only where there is room', () => {
  expect(daysOf(axis)).toEqual([]);
  expect(daysOf(axisOf(wednesday, 4, 968, 58))).toHaveLength(28);
});

test('weekends are shaded as one, closed days beside them apart', () => {
  const closed = new Set(['2026-12-24', '2026-12-25', '2026-12-26'].map(dayNumber));
  const shades = shadesOf(axis, closed);
  const christmas = shades.find((shade) => shade.isClosed);
  expect(christmas).toEqual({ x: leftOfDay(axis, dayNumber('2026-12-24')), width: 20, isClosed: true });
  expect(shades.filter((shade) => !shade.isClosed)).toHaveLength(13);
  expect(dateOfNumber(dayAt(axis, (shades[0]?.x ?? 0) + 1) ?? 0)).toBe('2026-11-28');
});
