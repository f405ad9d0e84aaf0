import { expect, test } from 'vitest';
import type { Trigger } from '../wire/contract';
import { DUE_AT, intervalOf, leftOf, placesOn } from './bar';

const trigger = (more: Partial<Trigger>): Trigger => ({ state: 'in hand', leads: true, ...more });
const onHours = (used: number, more: Partial<Trigger> = {}) =>
  trigger({
    ...{ counter: 'operating', unit: 'h', interval: 4000, heads_up: 400, used, left: 4000 - used },
    share_used: used / 4000,
    ...more,
  });

test('half used stands at half of the way to the due line', () => {
  expect(placesOn(onHours(2000))).toEqual({ used: DUE_AT / 2, over: 0, headsUp: 0.9 * DUE_AT });
});
test('what is over stands beyond the due line and never leaves the bar', () => {
  expect(placesOn(onHours(4400)).over).toBeCloseTo(0.1 * DUE_AT);
  const far = placesOn(onHours(40_000));
  expect(far.used + far.over).toBe(100);
});
test('a counter that fell does not draw backwards', () => {
  expect(placesOn(onHours(-50)).used).toBe(0);
});
test('left and over are said in the counter’s own unit', () => {
  expect(leftOf(onHours(3811.6))).toBe('188.4\u00a0h left');
  expect(leftOf(onHours(4003.2))).toBe('3.2\u00a0h over');
  expect(intervalOf(onHours(0), (key) => key)).toBe('of 4\u202f000\u00a0h operating');
});
test('of a reading the value and the limit are said', () => {
  const air = trigger({ reading: 'supply air', of: 'air', limit: 'warning', unit: 'bar', limit_at: 5.5 });
  expect(leftOf(air)).toBe('not read since');
  expect(leftOf({ ...air, last_value: 5.8 })).toBe('5.8\u00a0bar read');
  expect(leftOf({ ...air, last_value: 5.4, state: 'due' })).toBe('5.4\u00a0bar, beyond its limit');
  expect(intervalOf(air, (key) => key)).toBe('supply air: warning limit 5.5\u00a0bar');
});
test('days are said as days', () => {
  const calendar = (days_left: number) => trigger({ calendar: '12 months', days_left, share_used: 0.5 });
  expect([6, 1, 0, -1, -4].map((days) => leftOf(calendar(days)))).toEqual([
    '6 days left',
    '1 day left',
    'due today',
    '1 day over',
    '4 days over',
  ]);
  expect(intervalOf(calendar(6), (key) => key)).toBe('every 12 months');
  expect(placesOn(calendar(6)).headsUp).toBeNull();
});
