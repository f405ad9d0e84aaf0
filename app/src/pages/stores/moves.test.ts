import { expect, test } from 'vitest';
import type { ReadyLine } from '../../wire/contract';
import { kitToTake, kitUsed, moveLine, moveStock, quantityTrouble, serialsTrouble } from './moves';

const filter = { part: 'F-104', title: 'Return filter', unit: 'piece' };
const ready = (more: Partial<ReadyLine>): ReadyLine => ({
  ...{ part: 'F-104', name: 'Return filter', quantity: 2, unit: 'piece', state: 'reserved', reserved: 2, taken: 0 },
  tasks: ['hydraulic_filter'],
  ...more,
});

test('what was taken goes into the outbox with what it was for, and nothing that nobody said', () => {
  const { body, about, path } = moveStock('taken', [moveLine(filter, 2)], 'Ada', {
    machine: 'm07',
    why: ' ',
    stop: '',
  });
  expect(body).toMatchObject({ by: 'Ada', kind: 'taken', machine: 'm07', lines: [{ part: 'F-104', quantity: 2 }] });
  expect(Object.keys(body)).not.toContain('why');
  expect(Object.keys(body)).not.toContain('stop');
  expect([path, about.machine]).toEqual([{}, 'm07']);
  expect(about.what).toMatch(/2 pieces Return filter/);
});
test('a count of nothing is a count, and taking nothing is none', () => {
  const none = moveLine(filter, 0);
  expect(moveStock('counted', [none], 'Ada').body.lines).toEqual([{ part: 'F-104', quantity: 0 }]);
  expect(moveStock('taken', [none, moveLine(filter, 1)], 'Ada').body.lines).toHaveLength(1);
  expect([quantityTrouble(none, true), quantityTrouble(none, false)]).toEqual(['', expect.stringMatching(/above/)]);
});
test('of a part with serial numbers there is one for each', () => {
  const line = { ...moveLine({ ...filter, isSerial: true }, 2), serials: 'A1, A2' };
  expect(serialsTrouble(line, 'taken')).toBe('');
  expect(serialsTrouble({ ...line, serials: 'A1' }, 'taken')).not.toBe('');
  expect(serialsTrouble({ ...line, serials: '' }, 'counted')).toBe('');
  expect(moveStock('received', [line], 'Ada').body.lines[0]?.serials).toEqual(['A1', 'A2']);
});
test('of a kit what is not taken yet is taken, and what was taken counts as used', () => {
  const lines = [ready({}), ready({ part: 'O-1', taken: 2 }), { ...ready({ name: 'Rag' }), part: undefined } as never];
  expect(kitToTake(lines).map(({ part, quantity }) => [part, quantity])).toEqual([['F-104', '2']]);
  expect(
    kitUsed([ready({ taken: 1 }), ready({ substitute: 'F-105' })]).map(({ part, quantity }) => [part, quantity]),
  ).toEqual([
    ['F-104', '1'],
    ['F-105', '2'],
  ]);
});
