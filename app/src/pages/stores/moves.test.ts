import { expect, test } from 'vitest';
import type { ReadyLine } from '../../wire/contract';
import { kitToTake, kitUsed, moveLine, moveStock, quantityTrouble, serialsTrouble, usedAnew } from './moves';
import type { MoveLine } from './moves';

const filter = { part: 'F-104', title: 'Return filter', unit: 'piece' };
const ready = (more: Partial<ReadyLine>): ReadyLine => ({
  ...{ part: 'F-104', name: 'Return filter', quantity: 2, unit: 'piece', state: 'reserved', reserved: 2, taken: 0 },
  ...{ reserved_of: [{ part: 'F-104', quantity: 2 }], taken_of: [], tasks: ['hydraulic_filter'] },
  ...more,
});
const quantities = (lines: MoveLine[]) => lines.map(({ part, quantity }) => [part, quantity]);

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
test.each([
  ['piece', false],
  ['roll', false],
  ['l', true],
  ['m²', true],
])('half a %s can be moved: %s', (unit, may) => {
  expect(quantityTrouble({ ...moveLine({ ...filter, unit }), quantity: '0,5' }, false) === '').toBe(may);
});
test('of a part with serial numbers there is one for each', () => {
  const line = { ...moveLine({ ...filter, isSerial: true }, 2), serials: 'A1, A2' };
  expect(serialsTrouble(line, 'taken')).toBe('');
  expect(serialsTrouble({ ...line, serials: 'A1' }, 'taken')).not.toBe('');
  expect(serialsTrouble({ ...line, serials: '' }, 'counted')).toBe('');
  expect(moveStock('received', [line], 'Ada').body.lines[0]?.serials).toEqual(['A1', 'A2']);
});
/** 1 of 4 was taken as itself, 1 as its substitute; of the rest 1 is reserved as its substitute, and 1 lacks. */
const mixed = ready({
  ...{ quantity: 4, reserved: 1, taken: 2, substitute: 'F-105', reserved_of: [{ part: 'F-105', quantity: 1 }] },
  taken_of: [
    { part: 'F-104', quantity: 1 },
    { part: 'F-105', quantity: 1 },
  ],
});
const other = ready({
  part: 'F-105',
  name: 'Fine filter',
  reserved_of: [{ part: 'F-105', quantity: 2 }],
  tasks: ['b'],
});

test('of a kit what is reserved is taken, substitutes as themselves, each part once', () => {
  const nameless = { ...ready({ name: 'Rag', reserved_of: [] }), part: undefined } as never;
  expect(quantities(kitToTake([mixed, other, nameless]))).toEqual([['F-105', '3']]);
  expect(kitToTake([mixed, other])[0]?.title).toBe('Fine filter');
  expect(quantities(kitToTake([ready({ reserved: 0, reserved_of: [] })]))).toEqual([]);
});
test('used is what was taken, and of the rest what is planned for tasks that are done', () => {
  const lines = [mixed, other];
  const none = [
    ['F-104', '1'],
    ['F-105', '1'],
  ];
  expect(quantities(kitUsed(lines, []))).toEqual(none);
  expect(quantities(kitUsed(lines, ['hydraulic_filter']))).toEqual([
    ['F-104', '3'],
    ['F-105', '1'],
  ]);
  expect(quantities(kitUsed(lines, ['hydraulic_filter', 'b']))).toEqual([
    ['F-104', '3'],
    ['F-105', '3'],
  ]);
  expect(quantities(kitUsed([ready({ tasks: ['a', 'b'] })], ['a']))).toEqual([['F-104', '0']]);
});
test('what somebody wrote stays when a task is said to be done or left undone', () => {
  const lines = [ready({ tasks: ['a'] }), ready({ part: 'O-1', tasks: ['a'] })];
  const [before, now] = [kitUsed(lines, []), kitUsed(lines, ['a'])];
  const written = before.map((line) => (line.part === 'O-1' ? { ...line, quantity: '5' } : line));
  expect(quantities(usedAnew(written, before, now))).toEqual([
    ['F-104', '2'],
    ['O-1', '5'],
  ]);
  expect(quantities(usedAnew(now, now, before))).toEqual([
    ['F-104', '0'],
    ['O-1', '0'],
  ]);
});
