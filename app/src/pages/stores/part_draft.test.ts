import { afterEach, expect, test } from 'vitest';
import type { StoredPart } from '../../wire/contract';
import { spoken } from '../../words/language.svelte';
import { partDraft, partOf, partTroubles } from './part_draft';

const PART: StoredPart = {
  ...{
    number: 'F-104',
    title: 'Return filter',
    unit: 'piece',
    place: 'B2',
    names: ['Return filter', 'Filter, return'],
  },
  ...{ supplier: 'Hollmann', price: 12.5, pack: 2, minimum: 4, lead_days: 10, shelf_life_days: 700, wanted: 0.99 },
  references: [
    { supplier: 'Other', reference: 'X' },
    { supplier: 'Hollmann', reference: 'HM-7' },
  ],
  ...{ substitutes: ['F-105'], failures_per_year: 0.5, serial: true, note: 'Clean hands' },
};

test('a form that nobody changes sends the part as it is', () => {
  const { number, ...edit } = PART;
  expect(number).toBe('F-104');
  expect(partOf(partDraft(PART), PART)).toEqual(edit);
});
test('an emptied field is not sent, and a new part needs a title and a unit only', () => {
  const draft = { ...partDraft(PART), price: '', reference: '', names: ' \n', substitutes: '', serial: false };
  const edit = partOf(draft, PART);
  expect(Object.keys(edit)).not.toContain('price');
  expect(Object.keys(edit)).not.toContain('names');
  expect(edit.references).toEqual([{ supplier: 'Other', reference: 'X' }]);
  expect(partOf({ ...partDraft(null), title: ' Rag ' }, null)).toEqual({ title: 'Rag', unit: 'piece' });
});
afterEach(() => (spoken.name = 'en'));
test('a German form shows and reads German units', () => {
  spoken.name = 'de';
  const draft = partDraft(PART);
  expect(draft.unit).toBe('Stück');
  expect(partOf(draft, PART).unit).toBe('piece');
  expect(partOf({ ...draft, unit: ' satz' }, PART).unit).toBe('set');
  expect(partOf({ ...draft, unit: 'kg' }, PART).unit).toBe('kg');
  spoken.name = 'en';
  expect(partOf(draft, PART).unit).toBe('piece');
});
test.each([
  [{ title: ' ' }, ['title']],
  [{ unit: '' }, ['unit']],
  [{ pack: '0' }, ['pack']],
  [{ shelf_life_days: '1.5' }, ['shelf_life_days']],
  [{ wanted: '40' }, ['wanted']],
  [{ wanted: '100' }, ['wanted']],
  [{ supplier: '', reference: 'HM-7' }, ['supplier']],
  [{ price: '1,234' }, ['price']],
  [{ lead_days: '' }, []],
])('%j is wrong in %j', (change, fields) => {
  expect(Object.keys(partTroubles({ ...partDraft(PART), ...change }))).toEqual(fields);
});
