import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { Today, TodayItem } from '../../wire/contract';
import { byDay, grouped, groupOf, keyOf } from './groups';

const items = (new Shop().dates.today() as Today).items;

test('every item is in one group, in the order of the server', () => {
  const groups = grouped(items);
  expect(groups.flatMap((group) => group.items)).toHaveLength(items.length);
  for (const { name, items: own } of groups) expect(own).toEqual(items.filter((item) => groupOf(item) === name));
});

test('the group with the most costly item comes first', () => {
  const stray: TodayItem = { kind: 'stray', count: 2 };
  expect(grouped([stray, ...items])[0]?.name).toBe('stray');
  expect(grouped([...items, stray]).at(-1)?.name).toBe('stray');
});

test('what falls due soon stands under its most likely day, with the work in sum', () => {
  const soon = items.filter((item) => groupOf(item) === 'soon');
  const days = byDay(soon);
  expect(days.map(({ on }) => on)).toEqual(days.map(({ on }) => on).toSorted());
  expect(days.flatMap((day) => day.items)).toHaveLength(soon.length);
  const minutes = soon.reduce((sum, item) => sum + (item.task?.minutes ?? 0), 0);
  expect(days.reduce((sum, day) => sum + day.minutes, 0)).toBe(minutes);
  for (const day of days) expect(day.machines).toBeLessThanOrEqual(day.items.length);
});

test('nothing to decide is no group', () => expect(grouped([])).toEqual([]));

test('each thing has a key of its own', () => {
  const keys = [...items.map(keyOf), keyOf({ kind: 'round', machine: 'm01', rhythm: 'shift' })];
  expect(new Set(keys).size).toBe(keys.length);
});

test('two readings of one machine, and two parts, have keys of their own', () => {
  const reading = { task: 'air', title: 'Read the air', assembly: 'air', what: 'supply air', unit: 'bar', count: 9 };
  const of = (what: string) => keyOf({ kind: 'reading', machine: 'm01', reading: { ...reading, what } });
  expect(of('supply air')).toBe('reading/m01/air/supply air');
  expect(of('sealing air')).not.toBe(of('supply air'));
});
