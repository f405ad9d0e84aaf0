// So much of a part, in its unit: what is counted with the word that fits, what is measured with its sign.

import { plainAmount, say } from '../words/words';

const MEASURED: readonly string[] = ['l', 'ml', 'kg', 'g', 'm', 'mm', 'm2', 'm²'];

/** Half of it is nothing that lies on a shelf: everything that is not measured. */
export const isCounted = (unit: string): boolean => !MEASURED.includes(unit);

/** "1 piece", "2 sets", "0.4 l" */
export function partAmount(quantity: number, unit: string): string {
  if (unit === 'piece') return say('stores.unit_piece', { count: quantity });
  if (unit === 'set') return say('stores.unit_set', { count: quantity });
  return plainAmount(quantity, unit);
}

/** The unit beside a field: "l"; none where things are counted. */
export const unitBeside = (unit: string): string => (unit === 'piece' || unit === 'set' ? '' : unit);

/** "Return filter (F-104)" */
export const partName = (part: { number: string; title: string }): string => `${part.title} (${part.number})`;
