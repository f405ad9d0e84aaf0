// What a sheet is and what its columns can hold, and how a person's word about them is asked with.

import type { SheetColumn } from '../../wire/contract';
import { say } from '../../words/words';

export const SHEET_FIELDS = [
  'number',
  'title',
  'unit',
  'place',
  'names',
  'supplier',
  'reference',
  'price',
  'pack',
  'minimum',
  'lead_days',
  'shelf_life_days',
  'substitutes',
  'wanted',
  'failures_per_year',
  'serial',
  'note',
  'on_hand',
] as const satisfies ReadonlyArray<NonNullable<SheetColumn['field']>>;

/** @param columns null: as the server reads their headings */
export function columnsQuery(columns: readonly SheetColumn[] | null): Record<string, string> {
  return columns === null ? {} : { columns: columns.map(({ field }) => field ?? '').join(',') };
}

const FORM_WORDS = [
  'semicolons',
  'commas',
  'tabs',
  'decimal comma',
  'decimal point',
  'decimal comma and point',
] as const;

/** "CSV, UTF-8, semicolons, decimal comma" in the language of the pages; names stay as they are. */
export const formWords = (form: string): string =>
  form
    .split(', ')
    .map((word) => {
      const known = FORM_WORDS.find((one) => one === word);
      return known === undefined ? word : say(`sheet.form_${known}`);
    })
    .join(', ');
