import { expect, test } from 'vitest';
import { age, dateIn, day, daysBefore, moment } from './times';

const now = new Date('2026-11-25T05:30:00Z');
const zone = 'Europe/Berlin';

test('a moment of today is a clock time in the plant’s zone', () => {
  expect(moment('2026-11-24T23:12:00Z', zone, now)).toBe('00:12');
});
test('an earlier moment names its day, a far one its year', () => {
  expect(moment('2026-11-23T14:00:00Z', zone, now)).toBe('Mon 23 Nov 15:00');
  expect(moment('2019-03-03T14:00:00Z', zone, now)).toBe('3 Mar 2019');
});
test('dates are local dates', () => {
  expect(dateIn(zone, new Date('2026-11-24T23:30:00Z'))).toBe('2026-11-25');
  expect(daysBefore('2026-03-01', 1)).toBe('2026-02-28');
  expect(day('2026-02-28')).toBe('28 Feb 2026');
});
test('ages grow coarser', () => {
  expect([0, 40_000, 130_000, 7_300_000, 400_000_000].map(age)).toEqual(['0 s', '40 s', '2 min', '2 h', '4 days']);
});
