import { expect, test } from 'vitest';
import type { StockState, StoresPart } from '../../wire/contract';
import { chosenParts, countStates } from './choose';

const part = (
  number: string,
  title: string,
  state: StockState,
  more: Partial<StoresPart['part']> = {},
): StoresPart => ({
  ...{ part: { number, title, unit: 'piece', ...more }, version: 1, state },
  ...{ on_hand: 1, difference: 0, too_old: 0, reserved: 0, free: 1, on_order: 0, weeks: [] },
});
const PARTS = [
  part('F-104', 'Return filter', 'short', { place: 'B2', supplier: 'Hollmann' }),
  part('F-107', 'Tank breather', 'enough', { names: ['Breather filter'] }),
  part('O-1', 'Way oil', 'enough', { place: 'Öl 4', supplier: 'Hollmann' }),
];
const all = { find: '', state: '', supplier: '' } as const;
const numbers = (parts: StoresPart[]) => parts.map((one) => one.part.number);

test.each([
  ['filter', ['F-104', 'F-107']],
  ['f-10', ['F-104', 'F-107']],
  ['ol', ['O-1']],
  ['b2', ['F-104']],
  ['pump', []],
])('searching %s finds by number, title, place and name', (find, found) => {
  expect(numbers(chosenParts(PARTS, { ...all, find }))).toEqual(found);
});

test('state and supplier narrow it, and states without parts are not offered', () => {
  expect(numbers(chosenParts(PARTS, { ...all, state: 'enough', supplier: 'Hollmann' }))).toEqual(['O-1']);
  expect(countStates(PARTS)).toEqual([
    { state: 'short', count: 1 },
    { state: 'enough', count: 2 },
  ]);
});
