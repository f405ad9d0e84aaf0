import { expect, test } from 'vitest';
import type { GroupMachine } from '../../wire/contract';
import { asBefore, byPressing, chosen, machinesShown } from './choose';
import { summaryOf } from './summary';
import type { Summary } from './summary';
import { machineTold, plantTold, TOLD_AT } from './told';

const now = Date.parse(TOLD_AT);
const plant = (key: string, ...machines: Array<Partial<GroupMachine>>) =>
  summaryOf(
    plantTold(
      key,
      machines.map((more, index) => machineTold(`m${index + 1}`, more)),
    ),
  );
const keys = (summaries: readonly Summary[]) => summaries.map((one) => one.plant.key);

test('the most pressing plant comes first, and equal ones by their titles', () => {
  const unheld = summaryOf(plantTold('unheld', [machineTold('m1')], { held: false }));
  const lines = [
    plant('quiet'),
    plant('calm', {}),
    plant('coming', { coming: 9 }),
    plant('due', { due: 40, findings: ['watch'] }),
    plant('lost', { feed: 'lost' }),
    plant('overdue', { overdue: 1 }),
    plant('more-overdue', { overdue: 1 }, { overdue: 1 }),
    plant('stands', { findings: ['stop the machine'] }),
    unheld,
  ];
  expect(keys(byPressing(lines, now))).toEqual([
    'unheld',
    'stands',
    'more-overdue',
    'overdue',
    'due',
    'lost',
    'coming',
    'calm',
    'quiet',
  ]);
});

test('lines stay where they stood before, and a new one comes last', () => {
  const lines = [plant('a', { overdue: 5 }), plant('new', { overdue: 9 }), plant('b')];
  expect(keys(asBefore(lines, ['b', 'gone', 'a']))).toEqual(['b', 'a', 'new']);
});

test('search takes title, key and machines, in any case and without accents', () => {
  const lines = [plant('north', { name: 'Érable' }), plant('south', { name: 'Yew' })];
  const find = (search: string) => keys(chosen(lines, { search, attention: false }, now));
  expect(find('')).toEqual(['north', 'south']);
  expect(find(' SOUTH ')).toEqual(['south']);
  expect(find('erab')).toEqual(['north']);
  expect(find('no such')).toEqual([]);
});

test('only what needs attention leaves out plants where nobody has to do anything', () => {
  const lines = [plant('quiet', { coming: 2 }), plant('due', { due: 1 })];
  expect(keys(chosen(lines, { search: '', attention: true }, now))).toEqual(['due']);
  expect(keys(chosen(lines, { search: '', attention: true }, now + 200_000))).toEqual(['quiet', 'due']);
});

test('an open plant shows the machines that need attention, the most pressing first', () => {
  const summary = plant('north', { due: 2 }, {}, { overdue: 1 }, { findings: ['stop the machine'] }, { feed: 'lost' });
  expect(machinesShown(summary, '').map(({ key }) => key)).toEqual(['m4', 'm3', 'm1', 'm5']);
});

test('and those that are searched by name, unless it is the plant that is searched', () => {
  const summary = plant('north', { due: 2 }, { name: 'Yew' });
  expect(machinesShown(summary, 'yew').map(({ key }) => key)).toEqual(['m1', 'm2']);
  expect(machinesShown(summary, 'plant n')).toHaveLength(1);
});

test('5,000 machines in 300 plants are summed up, chosen and put in order within a moment', () => {
  const told = Array.from({ length: 300 }, (_, index) =>
    plantTold(
      `p${index}`,
      Array.from({ length: 17 }, (__, at) => machineTold(`m${at}`, { due: (index * at) % 3, findings: ['watch'] })),
    ),
  );
  const began = performance.now();
  const shown = byPressing(chosen(told.map(summaryOf), { search: 'lathe', attention: true }, now), now);
  expect(shown).toHaveLength(300);
  expect(performance.now() - began).toBeLessThan(500);
});
