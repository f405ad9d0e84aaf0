// The language of the pages. Whatever is said or printed looks here, so that a change is seen at once and nothing that
// was typed is lost.

import { LANGUAGES } from './catalogue';
import type { Language } from './catalogue';

class Spoken {
  name = $state<Language>('en');
}

export const spoken = new Spoken();

/** The first wish that the pages can speak, "de-AT" as German; English when there is none. */
export function languageFor(wishes: readonly string[]): Language {
  const known = wishes.map((wish) => LANGUAGES.find((name) => name === wish.toLowerCase().split('-')[0]));
  return known.find((name) => name !== undefined) ?? 'en';
}
