import { expect, test } from 'vitest';
import type { OrderProposal, PartProposal } from '../../wire/contract';
import { draftOf, orderOf, orderTroubles } from './order_draft';

const line = (part: string, quantity: number, price?: number): PartProposal => ({
  ...{ part, title: part, unit: 'piece', quantity, order_by: '2026-11-26', due: 'today', reasons: [] },
  ...(price === undefined ? {} : { price }),
});
const OIL: PartProposal = { ...line('O-1', 20), unit: 'l' };
const ORDER: OrderProposal = { supplier: 'Hollmann', due: 'today', lines: [line('F-104', 4, 12.5), OIL] };

test('placed as it was proposed, with the prices that are known and nothing that nobody said', () => {
  expect(orderOf(ORDER, draftOf(ORDER))).toEqual({
    supplier: 'Hollmann',
    lines: [
      { part: 'F-104', quantity: 4, price: 12.5 },
      { part: 'O-1', quantity: 20 },
    ],
  });
});
test('a changed quantity counts', () => {
  const draft = { ...draftOf(ORDER), quantities: ['6', '7,5'], reference: ' 77 ', confirmedOn: '2026-12-01' };
  expect(orderTroubles(ORDER, draft)).toEqual({});
  expect(orderOf(ORDER, draft)).toEqual({
    ...{ supplier: 'Hollmann', reference: '77', confirmed_on: '2026-12-01' },
    lines: [
      { part: 'F-104', quantity: 6, price: 12.5 },
      { part: 'O-1', quantity: 7.5 },
    ],
  });
});
test('a line without a quantity is left out', () => {
  const { lines } = orderOf(ORDER, { ...draftOf(ORDER), quantities: ['', '20'] });
  expect(lines).toEqual([{ part: 'O-1', quantity: 20 }]);
});
test('an order has a supplier, and orders something', () => {
  expect(Object.keys(orderTroubles(ORDER, { ...draftOf(ORDER), supplier: ' ' }))).toEqual(['supplier']);
  expect(Object.keys(orderTroubles(ORDER, { ...draftOf(ORDER), quantities: ['0', ' '] }))).toEqual(['quantity.0']);
  expect(Object.keys(orderTroubles(ORDER, { ...draftOf(ORDER), quantities: ['4', 'two'] }))).toEqual(['quantity.1']);
});
test('what is counted is ordered whole, what is measured need not be', () => {
  expect(Object.keys(orderTroubles(ORDER, { ...draftOf(ORDER), quantities: ['2,5', '2,5'] }))).toEqual(['quantity.0']);
});
