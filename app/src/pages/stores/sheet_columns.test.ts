import { afterEach, expect, test } from 'vitest';
import { enumsOf, readContract } from '../../../steps/contract.mjs';
import { spoken } from '../../words/language.svelte';
import { columnsQuery, formWords, SHEET_FIELDS } from './sheet_columns';

test('a column can be everything that the contract knows', () => {
  expect([...SHEET_FIELDS].sort()).toEqual([...(enumsOf(readContract())['SheetColumn.field'] ?? [])].sort());
});
test('columns are asked with in their order, those left out empty', () => {
  expect(columnsQuery(null)).toEqual({});
  expect(
    columnsQuery([{ heading: 'Nr', field: 'number' }, { heading: '?' }, { heading: 'Menge', field: 'on_hand' }]),
  ).toEqual({
    columns: 'number,,on_hand',
  });
});

afterEach(() => (spoken.name = 'en'));
test('a sheet’s form is said in the language of the pages, names stay', () => {
  expect(formWords('CSV, UTF-8, semicolons, decimal comma')).toBe('CSV, UTF-8, semicolons, decimal comma');
  spoken.name = 'de';
  expect(formWords('CSV, UTF-8, semicolons, decimal comma')).toBe('CSV, UTF-8, Strichpunkte, Dezimalkomma');
});
