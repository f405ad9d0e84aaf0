import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { Machine } from '../../wire/contract';
import { differences, draftOf, editOf, emptyDraft, troublesOf } from './draft';
import type { TaskDraft } from './draft';
import { CALENDAR, emptyTrigger, onReading, printCalendar, readingOn } from './trigger_draft';

const sign = { id: '00000000-0000-7000-8000-000000000000', by: 'Ada Brandt' };
const good = (more: Partial<TaskDraft> = {}): TaskDraft => ({
  ...emptyDraft('coolant', 'operating'),
  title: ' Clean the lamp ',
  triggers: [{ on: 'operating', limit: 'warning', interval: '62,5', span: 'month', headsUp: '8', tolerance: '4.5' }],
  ...more,
});

test('a good draft becomes what the server takes, comma and point alike', () => {
  const draft = good({ steps: 'Wipe\n\n Look ', parts: [{ name: 'Cloth', quantity: '0,5', unit: 'piece' }] });
  expect(troublesOf(draft)).toEqual({});
  expect(editOf(draft, sign)).toMatchObject({
    title: 'Clean the lamp',
    minutes: 10,
    triggers: [{ counter: 'operating', interval: 62.5, heads_up: 8, tolerance: 4.5 }],
    steps: ['Wipe', 'Look'],
    parts: [{ name: 'Cloth', quantity: 0.5, unit: 'piece' }],
  });
});

test('an empty draft says which fields need a person', () => {
  expect(Object.keys(troublesOf(emptyDraft('coolant', 'operating'))).sort()).toEqual(['title', 'triggers.0.interval']);
});

test.each([
  ['interval', 'soon'],
  ['interval', '0'],
  ['interval', '-5'],
  ['interval', '1e309'],
  ['interval', '1,500'],
  ['headsUp', '-1'],
  ['headsUp', '62.5'],
  ['tolerance', ''],
])('a trigger whose %s is %j is refused beside that field', (field, value) => {
  const trigger = { ...emptyTrigger('operating'), interval: '62.5', [field]: value };
  expect(Object.keys(troublesOf(good({ triggers: [trigger] })))).toContain(`triggers.0.${field}`);
});

test('days and spans are whole', () => {
  const trigger = { ...emptyTrigger(CALENDAR), interval: '1.5', headsUp: '0.5' };
  expect(Object.keys(troublesOf(good({ triggers: [trigger] })))).toEqual(['triggers.0.interval', 'triggers.0.headsUp']);
});

test('two triggers on the same counter are refused at the second', () => {
  const [trigger] = good().triggers;
  expect(Object.keys(troublesOf(good({ triggers: [trigger, trigger] as TaskDraft['triggers'] })))).toEqual([
    'triggers.1.on',
  ]);
});

test('a trigger by a reading names the task and the limit, and counts no interval', () => {
  const on = onReading('air-unit', 'flow, l/min');
  expect(readingOn(on)).toEqual({ of: 'air-unit', reading: 'flow, l/min' });
  const draft = good({ triggers: [{ ...emptyTrigger(on), limit: 'action', headsUp: '7' }] });
  expect(troublesOf(draft)).toEqual({});
  const trigger = { reading: 'flow, l/min', of: 'air-unit', limit: 'action', heads_up_days: 7 };
  expect(editOf(draft, sign).triggers).toEqual([trigger]);
  expect(troublesOf(good({ triggers: [{ ...emptyTrigger(on), headsUp: '0.5' }] }))).toHaveProperty(
    'triggers.0.headsUp',
  );
});

test('minutes stay within a week', () => {
  expect(troublesOf(good({ minutes: '10081' }))).toHaveProperty('minutes');
  expect(troublesOf(good({ minutes: '10080' }))).toEqual({});
});

test('calendar intervals are said as the server reads them', () => {
  expect([printCalendar(1, 'week'), printCalendar(12, 'month')]).toEqual(['1 week', '12 months']);
});

test('every task of the shop’s sets survives being opened and saved unchanged', () => {
  const shop = new Shop();
  for (const { key } of shop.floor().machines.slice(0, 7)) {
    for (const task of (shop.machine(key) as Machine).tasks) {
      const draft = draftOf(task);
      expect(troublesOf(draft), task.title).toEqual({});
      const edit = editOf(draft, sign);
      expect(edit.triggers.map((one) => one.calendar ?? one.interval)).toEqual(
        task.triggers.map((one) => one.calendar ?? one.interval),
      );
      expect(edit.parts).toEqual(task.parts);
      expect(edit.steps).toEqual(task.steps);
      expect(edit.readings).toEqual(task.readings ?? []);
      expect(edit.quantity_unit).toBe(task.quantity_unit);
      expect(edit.after).toEqual(task.after ?? []);
    }
  }
});

test('only a top up has a unit of what is filled in', () => {
  expect(editOf(good({ work: 'top up', quantityUnit: ' l ' }), sign).quantity_unit).toBe('l');
  expect(editOf(good({ work: 'clean', quantityUnit: 'l' }), sign)).not.toHaveProperty('quantity_unit');
});

test('a conflict shows the fields that differ and no others', () => {
  const mine = good();
  const theirs = good({ minutes: '15', triggers: [{ ...emptyTrigger('spindle'), interval: '40' }], after: ['drain'] });
  const titleOf = (task: string) => `the ${task}`;
  expect(differences(mine, theirs, titleOf).map((one) => one.field)).toEqual(['minutes', 'triggers', 'after']);
  expect(differences(mine, theirs, titleOf)[2]).toMatchObject({ mine: '', theirs: 'the drain' });
  expect(differences(mine, good(), titleOf)).toEqual([]);
});
