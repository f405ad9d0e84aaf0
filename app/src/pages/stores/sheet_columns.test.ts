import { expect, test } from 'vitest';
import { enumsOf, readContract } from '../../../steps/contract.mjs';
import { columnsQuery, SHEET_FIELDS } from './sheet_columns';

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
