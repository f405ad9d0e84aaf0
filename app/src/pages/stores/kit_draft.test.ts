import { expect, test } from 'vitest';
import type { Kits } from '../../wire/contract';
import { kitDraft, kitLines, kitsByKind, kitTroubles } from './kit_draft';

const KITS: Kits = {
  kits: [
    { kind: 'lathe', service: 'yearly', lines: [{ part: 'S-7', quantity: 1 }] },
    { kind: 'mill', task: 'filter', lines: [{ part: 'F-104', quantity: 2 }] },
  ],
  tasks: [
    {
      kind: 'mill',
      task: 'filter',
      title: 'Replace',
      lines: [{ name: 'Filter', part: 'F-104', quantity: 2, unit: 'piece' }],
    },
    { kind: 'lathe', task: 'oil', title: 'Oil', lines: [{ name: 'Way oil', quantity: 0.5, unit: 'l' }] },
  ],
  services: [{ kind: 'lathe', service: 'yearly', title: 'Yearly service', title_de: 'Jahresservice' }],
};
const byKind = () =>
  kitsByKind(
    KITS,
    () => ({ title: 'Seals', unit: 'set' }),
    ({ title }) => title,
  );

test('kits stand by kind, services first, and say whether somebody laid them down', () => {
  expect(
    byKind().map(({ kind, kits }) => [kind, kits.map(({ title, isLaidDown }) => `${title} ${isLaidDown}`)]),
  ).toEqual([
    ['lathe', ['Yearly service true', 'Oil false']],
    ['mill', ['Replace true']],
  ]);
  expect(byKind()[0]?.kits[0]?.lines).toEqual([{ name: 'Seals', part: 'S-7', quantity: 1, unit: 'set' }]);
});
test('a name that no part answers to is an empty field to fill in', () => {
  const draft = kitDraft(byKind()[0]?.kits[1] as never);
  expect(draft).toEqual([{ part: '', quantity: '0.5', name: 'Way oil', unit: 'l' }]);
  expect(Object.keys(kitTroubles(draft, ['O-1']))).toEqual(['part.0']);
  expect(kitLines([{ part: ' O-1 ', quantity: '0,5' }])).toEqual([{ part: 'O-1', quantity: 0.5 }]);
});
test('a part that is not kept, one named twice and a quantity of nothing are wrong', () => {
  const lines = [
    { part: 'F-1', quantity: '1' },
    { part: 'F-1', quantity: '0' },
    { part: 'X', quantity: '1' },
  ];
  expect(Object.keys(kitTroubles(lines, ['F-1']))).toEqual(['part.1', 'quantity.1', 'part.2']);
});
