import { expect, test, vi } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { Finding, Task, TodayItem, Turn } from '../../wire/contract';
import { wordsOf } from './item_words';

// The addresses come with the route, which looks at the window when it is loaded.
vi.hoisted(() => vi.stubGlobal('window', { location: { href: 'http://shop/' } }));

const ground = {
  currency: 'EUR',
  zone: 'Europe/Berlin',
  now: new Date('2026-11-25T05:30:00Z'),
  machineName: () => 'Box 3',
};
const shop = new Shop();
const task = shop.machine('m01').tasks[0] as unknown as Task;
const forecast = {
  first: '2026-11-27',
  median: '2026-11-30',
  last: '2026-12-02',
  overdue_median: null,
  leads: 'spindle',
};
const about = (item: Partial<TodayItem>) => wordsOf({ kind: 'task', machine: 'm03', ...item }, ground);

test('what is overdue says since when and what it risks, and opens the task and its working', () => {
  const late: Task = {
    ...task,
    key: 'oil',
    title: 'Change hydraulic oil',
    state: 'overdue',
    reason: 'Worn oil wears the pump.',
  };
  const words = about({ task: late, forecast, overdue_since: '2026-11-12' });
  expect(words.sentence).toMatch(/^Change hydraulic oil, Box 3: overdue since 12 November 2026/);
  expect(words.more).toBe('Worn oil wears the pump.');
  expect(words.act.address).toBe('/machine/m03?task=oil');
  expect(words.working?.address).toBe('/machine/m03/task-date/oil');
});

test('what is due soon says its range', () => {
  const words = about({ task: { ...task, title: 'Clean the filter', state: 'coming' }, forecast });
  expect(words.sentence).toContain('most likely 30 November 2026');
});

test('a finding without owner says so', () => {
  const finding = { id: 'f1', machine: 'm03', what: 'Oil under the spindle', owner: null, due_on: null } as Finding;
  const words = about({ kind: 'finding', finding });
  expect(words.sentence).toBe('Box 3: Oil under the spindle');
  expect(words.more).toMatch(/nobody/i);
  expect(words.act.address).toBe('/finding/f1');
});

test('a counter that stopped says since when', () => {
  expect(about({ kind: 'counter', silent_since: '2026-11-25T03:12:00Z' }).sentence).toContain('04:12');
});

test('a round that is not walked leads to walking it', () => {
  const turn = { state: 'open', ends_at: '2026-11-25T13:00:00Z', walks: [] as Turn['walks'] } as Turn;
  const words = about({ kind: 'round', rhythm: 'before start-up', turn });
  expect(words.act.address).toBe('/machine/m03/round/before-start-up');
  expect(words.sentence).toContain('14:00');
});

test('strays lead to the entries that wait', () => {
  expect(wordsOf({ kind: 'stray', count: 3 }, ground).act.address).toBe('/logbook?stray=yes');
});

test('copies that are old, failed or not made say so and what that risks', () => {
  const words = (copies: TodayItem['copies']) => wordsOf({ kind: 'copies', copies }, ground);
  const last_good_at = '2026-11-22T01:00:00Z';
  expect(words({ concern: 'old', last_good_at }).sentence).toMatch(/^The last good copy of the shop is of .*22 Nov/);
  const failed = words({ concern: 'failed', last_good_at, says: '/mnt/copies: no room' });
  expect(failed.more).toMatch(/^\/mnt\/copies: no room The last good one is of .*22 Nov.* everything since/);
  expect(words({ concern: 'not set up' }).sentence).toBe('No copies of the shop are made');
});

test('a reading that drifts says when it meets its limit, and a finding of it begins with that', () => {
  const words = about({
    kind: 'reading',
    reading: {
      ...{ task: 'air', title: 'Read the air', assembly: 'air', point: 7, what: 'supply air', unit: 'bar', count: 16 },
      ...{ warning: { min: 5.5 }, direction: 'falling', slope: -0.02, p: 0.001 },
      last: { value: 5.8, state: 'as it should be', at: '2026-11-24T05:00:00Z', by: 'Ada' },
      crossing: {
        ...{ limit: 'warning', side: 'below', at: 5.5, beyond: false },
        ...{ first: '2026-12-04', median: '2026-12-09', last: '2026-12-20' },
      },
    },
  });
  expect(words.sentence).toBe(
    'Box 3, supply air: will cross 5.5\u00a0bar about 9 December 2026, with 80\u00a0% between 4 December and 20 December',
  );
  expect(words.more).toMatch(/^falls by 0\.14\u00a0bar a week\. Last: 5\.8\u00a0bar/);
  expect(words.working?.address).toBe('/machine/m03/reading/air?what=supply+air');
  const query = new URL(words.act.address, 'http://shop').searchParams;
  expect([query.get('machine'), query.get('point'), query.get('check')]).toEqual(['m03', '7', 'air/supply air']);
  expect(query.get('what')).toMatch(/^supply air: falls by/);
});

const weeks: never[] = [];
const shelf = {
  ...{ part: { number: 'F-104', title: 'Mist filter', unit: 'piece', place: 'A2' }, version: 1, weeks },
  ...{ state: 'count it' as const, on_hand: 0, difference: -2, too_old: 0, reserved: 0, free: 0, on_order: 0 },
};

test('an order is placed where its supplier’s stands, a shelf is counted, and a stop tells what it goes without', () => {
  const line = { part: 'F-104', title: 'Mist filter', unit: 'piece', quantity: 3, order_by: '2026-11-25', reasons: [] };
  const order = { supplier: 'Hollmann', due: 'today' as const, lines: [{ ...line, due: 'today' as const }] };
  const toOrder = wordsOf({ kind: 'order', order, noon: '2026-11-25T11:00:00Z' }, ground);
  expect([toOrder.sentence, toOrder.act.address]).toEqual([
    'Order 1 line with Hollmann before noon (12:00)',
    '/stores?order=Hollmann',
  ]);
  expect(toOrder.more).toContain('3 pieces Mist filter');
  const toCount = wordsOf({ kind: 'shelf', shelf }, ground);
  expect(toCount.sentence).toContain('2 pieces less than nothing');
  expect(toCount.act.address).toBe('/stores/F-104?count=yes');
  const some = {
    name: 'Mist filter',
    quantity: 2,
    unit: 'piece',
    reserved: 1,
    taken: 0,
    reserved_of: [],
    taken_of: [],
  };
  const short = { ...some, state: 'short' as const };
  const kit = { stop: 's1', machine: 'm03', on: '2026-11-28', shift: '', state: 'short' as const };
  const without = wordsOf({ kind: 'kit', machine: 'm03', kit: { ...kit, lines: [{ ...short, tasks: [] }] } }, ground);
  expect(without.sentence).toBe('The stop of Box 3 on Sat, 28 November 2026 goes without 1 piece Mist filter');
  expect(without.act.address).toBe('/stop/s1');
});
