// So much of a part, in its unit: what is counted with the word that fits, what is measured with its sign.

import { plainAmount, say } from '../words/words';

/** Units that the app has words for; the contract names them in English. */
export const UNIT_WORDS = ['piece', 'set', 'roll'] as const;
const MEASURED: readonly string[] = ['l', 'ml', 'kg', 'g', 'm', 'mm', 'm2', 'm²'];

/** Half of it is nothing that lies on a shelf: everything that is not measured. */
export const isCounted = (unit: string): boolean => !MEASURED.includes(unit);

/** "1 piece", "2 sets", "3 rolls", "0.4 l" */
export function partAmount(quantity: number, unit: string): string {
  const word = UNIT_WORDS.find((one) => one === unit);
  return word === undefined ? plainAmount(quantity, unit) : say(`stores.unit_${word}`, { count: quantity });
}

/** The unit beside a field: "l"; none where things are counted. */
export const unitBeside = (unit: string): string => (UNIT_WORDS.some((one) => one === unit) ? '' : unit);

/** "Return filter (F-104)" */
export const partName = (part: { number: string; title: string }): string => `${part.title} (${part.number})`;
