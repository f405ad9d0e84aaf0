// A part's unit in its form: said and read in the language of the pages, while the contract names it in English.

import { folded } from '../../parts/folded';
import { UNIT_WORDS } from '../../parts/part_amount';
import { catalogues } from '../../words/catalogue';
import { say } from '../../words/words';

/** A unit as a person reads it in a form: "Stück" for piece. */
export function unitWord(unit: string): string {
  const word = UNIT_WORDS.find((one) => one === unit);
  return word === undefined ? unit : say(`part.unit_${word}`);
}

/** The contract's unit that a person wrote, in any language that was spoken here: piece for "Stück"; others as written. */
export function unitRead(text: string): string {
  const written = folded(text);
  const isMeant = (word: (typeof UNIT_WORDS)[number]) =>
    word === written ||
    Object.values(catalogues).some((catalogue) => folded(String(catalogue[`part.unit_${word}`] ?? '')) === written);
  return UNIT_WORDS.find(isMeant) ?? text.trim();
}
