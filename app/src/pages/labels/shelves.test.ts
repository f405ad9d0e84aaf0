import { expect, test } from 'vitest';
import type { StoresPart } from '../../wire/contract';
import { byPlace, shelvesWith } from './shelves';

const part = (number: string, place?: string) =>
  ({ part: { number, title: `Part ${number}`, unit: 'piece', ...(place ? { place } : {}) } }) as StoresPart;
const parts = byPlace([part('F-10', 'B10'), part('F-2', 'B2'), part('F-1', 'B2'), part('X')]);

test('labels come in the order of the shelves, B2 before B10', () => {
  expect(parts.map(({ number }) => number)).toEqual(['X', 'F-1', 'F-2', 'F-10']);
});
test('a place, a number or a title names shelves', () => {
  expect(shelvesWith('b2', parts).map(({ number }) => number)).toEqual(['F-1', 'F-2']);
  expect(shelvesWith('part x', parts).map(({ number }) => number)).toEqual(['X']);
});
