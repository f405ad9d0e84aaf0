import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import { countStates, urgencyOf } from '../../parts/states';
import type { Floor, FloorMachine } from '../../wire/contract';
import { byCell, chosen } from './choose';

const machines = (new Shop().floor() as Floor).machines;
const titled = (key: string) => key;
const all = { state: '', cell: '', search: '' } as const;
const names = (found: FloorMachine[]) => found.map((machine) => machine.name);

test('nothing chosen shows every machine', () => {
  expect(chosen(machines, all, titled)).toHaveLength(24);
});

test('search takes name, key and kind, in any case and without accents', () => {
  const named = machines.map((machine, index) => (index === 0 ? { ...machine, name: 'Érable' } : machine));
  expect(names(chosen(named, { ...all, search: 'erab' }, titled))).toEqual(['Érable']);
  expect(names(chosen(named, { ...all, search: ' M24 ' }, titled))).toEqual(['Yew']);
  expect(chosen(named, { ...all, search: 'LATHE' }, titled).every((machine) => machine.kind === 'lathe')).toBe(true);
});

test('the states of all machines add up, and each choice shows as many as its count says', () => {
  const counts = countStates(machines.map(urgencyOf));
  expect(Object.values(counts).reduce((sum, count) => sum + count)).toBe(24);
  for (const state of ['in hand', 'coming', 'due', 'overdue'] as const)
    expect(chosen(machines, { ...all, state }, titled)).toHaveLength(counts[state]);
});

test('a machine is as urgent as its most urgent task', () => {
  const machine = machines[0] as FloorMachine;
  expect(urgencyOf({ ...machine, tally: { in_hand: 40, coming: 3, due: 1, overdue: 0 } })).toBe('due');
  expect(urgencyOf({ ...machine, tally: { in_hand: 0, coming: 0, due: 0, overdue: 0 } })).toBe('in hand');
});

test('groups keep the order of the cells, leave out empty ones and show a cell that the shop does not list', () => {
  const stray = { ...(machines[0] as FloorMachine), cell: 'yard' };
  const groups = byCell(
    [stray, ...machines.slice(8, 10)],
    [
      { key: 'housings', title: 'Housings' },
      { key: 'shafts', title: 'Shafts' },
    ],
  );
  expect(groups.map((group) => [group.cell.title, group.machines.length])).toEqual([
    ['Shafts', 2],
    ['yard', 1],
  ]);
});
