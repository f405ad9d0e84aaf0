import { expect, test } from 'vitest';
import { age, dateIn, day, daysBefore, fieldIn, instantIn, moment } from './times';

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

test('a field for a time is read by the plant’s clock, on both sides of a change of clocks', () => {
  const times = ['2026-07-01T06:00', '2026-12-01T06:00', '2026-03-29T01:59', '2026-03-29T03:00', '2026-10-25T04:00'];
  for (const time of times) expect(fieldIn(zone, new Date(instantIn(zone, time)))).toBe(time);
  expect(instantIn(zone, '2026-07-01T06:00')).toBe('2026-07-01T04:00:00.000Z');
  expect(instantIn('Asia/Tokyo', '2026-12-01T06:00')).toBe('2026-11-30T21:00:00.000Z');
  expect(instantIn(zone, '')).toBe('');
});
