// What the columns of a sheet can hold, and how a person's word about them is asked with.

import type { SheetColumn } from '../../wire/contract';

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
