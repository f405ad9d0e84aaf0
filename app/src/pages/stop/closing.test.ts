import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { ReadyLine, StopCard } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { isOpened } from '../../parts/as_found';
import { closeStop, closeTroubles, emptyClosing, fitted } from './closing';
import type { TaskDraft } from './closing';

const ZONE = 'Europe/Berlin';
const NOW = new Date('2031-01-04T09:30:00Z');
const shop = new Shop();

/** A stop with a replacement, a reading and a top-up, wherever this shop has a machine with all of them. */
function cardOf(): StopCard {
  for (const { key, tasks } of shop.machines) {
    const wanted: Array<{ key: string } | undefined> = [
      tasks.find((one: { work: string }) => one.work === 'replace'),
      tasks.find((one: { readings?: unknown[] }) => one.readings?.length === 1),
      tasks.find((one: { quantity_unit?: string }) => one.quantity_unit),
    ];
    const keys = [...new Set(wanted.flatMap((one) => (one ? [one.key] : [])))];
    if (wanted.includes(undefined)) continue;
    const edit = { id: newId(), by: 'Ada Brandt', on: '2031-01-04', shift: 'weekend', tasks: keys };
    return shop.stops.card(shop.stops.agree(key, edit).id) as StopCard;
  }
  throw new Error('no machine of this shop has all of it');
}

const card = cardOf();
const [replaced, read, filled] = [
  card.tasks.find(isOpened)?.key ?? '',
  card.tasks.find((one) => one.readings)?.key ?? '',
  card.tasks.find((one) => one.quantity_unit)?.key ?? '',
];
const drafted = (more: Record<string, Partial<TaskDraft>> = {}) => {
  const draft = emptyClosing(card, ZONE, NOW);
  for (const [key, said] of Object.entries(more)) Object.assign(draft.tasks[key] ?? {}, said);
  return draft;
};
const allDone = () => Object.fromEntries(card.tasks.map(({ key }) => [key, { state: 'done' as const }]));

test('it begins with the shift and ends now, by the plant’s clock', () =>
  expect(drafted()).toMatchObject({ began: '2031-01-04T08:00', ended: '2031-01-04T10:30' }));

test('each task must be said done or left undone', () => {
  expect(Object.keys(closeTroubles(card, drafted(), ZONE))).toHaveLength(card.tasks.length);
  expect(closeTroubles(card, drafted(allDone()), ZONE)).toEqual({});
});

test('only what is done is sent, and what the rest holds is left undone', () => {
  const draft = drafted({
    ...allDone(),
    [read]: { state: 'left undone' },
    [replaced]: { state: 'done', asFound: 'worn' },
  });
  const { body, path } = closeStop(card, draft, 'Ada Brandt', ZONE);
  expect(path).toEqual({ stop: card.stop.id });
  expect(body.done.map(({ task }) => task)).toEqual(card.tasks.map(({ key }) => key).filter((key) => key !== read));
  expect(body.done.find(({ task }) => task === replaced)?.as_found).toBe('worn');
  expect(body).toMatchObject({ began_at: '2031-01-04T07:00:00.000Z', ended_at: '2031-01-04T09:30:00.000Z' });
  expect(new Set(body.done.map(({ id }) => id)).size).toBe(body.done.length);
});

test('readings, minutes and quantities are sent as numbers, and empty ones are not', () => {
  const draft = drafted(allDone());
  // One task may have both.
  Object.assign(draft.tasks[read] ?? {}, { readings: ['5,2'] });
  Object.assign(draft.tasks[filled] ?? {}, { quantity: '1.5', minutes: '20' });
  const { done } = closeStop(card, draft, 'Ada Brandt', ZONE).body;
  const reading = card.tasks.find(({ key }) => key === read)?.readings?.[0];
  const one = done.find(({ task }) => task === read);
  expect(one?.readings).toEqual([{ what: reading?.what, unit: reading?.unit, value: 5.2 }]);
  expect(done.find(({ task }) => task === filled)).toMatchObject({ quantity: 1.5, minutes: 20 });
});

test('what cannot be is said beside its field', () => {
  const draft = { ...drafted(allDone()), ended: '2031-01-04T07:00' };
  Object.assign(draft.tasks[read] ?? {}, { readings: ['about five'], minutes: '1,500' });
  const troubles = closeTroubles(card, draft, ZONE);
  expect(Object.keys(troubles).sort()).toEqual([`${read}.minutes`, `${read}.reading.0`, 'ended'].sort());
});

test('a kept draft keeps what it says of tasks that are still there', () => {
  const kept = drafted(allDone());
  const fresh = drafted();
  const { [replaced]: gone, ...others } = kept.tasks;
  expect(gone?.state).toBe('done');
  const back = fitted({ ...kept, tasks: others }, fresh);
  expect(back.tasks[read]?.state).toBe('done');
  expect(back.tasks[replaced]?.state).toBe('');
});

const kitLine = (part: string, more: Partial<ReadyLine> = {}): ReadyLine => ({
  ...{ part, name: part, quantity: 2, unit: 'piece', state: 'reserved', reserved: 2, taken: 0, tasks: [] },
  ...{ reserved_of: [{ part, quantity: 2 }], taken_of: [] },
  ...more,
});
const stocked: StopCard = {
  ...card,
  readiness: {
    ...{ stop: card.stop.id, machine: card.machine.key, on: card.stop.on, shift: '', state: 'ready' },
    lines: [
      kitLine('F-1', { quantity: 1, taken: 1, taken_of: [{ part: 'F-1', quantity: 1 }], state: 'taken' }),
      kitLine('F-2'),
    ],
  },
};

test('what was really used begins with what was taken, else with what was planned, and goes with the closing', () => {
  const draft = emptyClosing(stocked, ZONE, NOW);
  expect(draft.used.map(({ part, quantity }) => [part, quantity])).toEqual([
    ['F-1', '1'],
    ['F-2', '2'],
  ]);
  const [first, second] = draft.used;
  if (first && second) [first.quantity, second.quantity] = ['0', '3'];
  expect(closeStop(stocked, draft, 'Ada', ZONE).body.used?.lines).toEqual([
    { part: 'F-1', quantity: 0 },
    { part: 'F-2', quantity: 3 },
  ]);
  if (first) first.quantity = 'two';
  expect(Object.keys(closeTroubles(stocked, draft, ZONE))).toContain('used.0');
});
test('of a shop without stores nothing is said of what was used', () => {
  expect(closeStop(card, drafted(allDone()), 'Ada', ZONE).body).not.toHaveProperty('used');
});
test('a kept draft keeps what was written of the parts that the kit still has', () => {
  const fresh = emptyClosing(stocked, ZONE, NOW);
  const [first] = fresh.used;
  const kept = { ...fresh, used: first ? [{ ...first, quantity: '5' }] : [] };
  expect(fitted(kept, fresh).used.map(({ quantity }) => quantity)).toEqual(['5', '2']);
});
