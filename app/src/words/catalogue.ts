// The texts of the pages, by language. A language is complete or the tests fail: English says which keys there are, and
// every other language is typed and tested against it.

import { de } from './de';
import { en } from './en';
import type { DecimalMark } from './numbers';

export type Key = keyof typeof en;
export type Text = string | { readonly one: string; readonly other: string };
export type Catalogue = Readonly<Record<Key, Text>>;
/** A page's texts in another language than English. */
export type Wording<English> = Readonly<Record<keyof English, Text>>;

export const catalogues = { en, de } satisfies Record<string, Catalogue>;
export type Language = keyof typeof catalogues;

interface Manner {
  /** In the language itself, for whoever looks for it. */
  title: string;
  /** For dates. */
  locale: string;
  mark: DecimalMark;
}
export const MANNERS: Readonly<Record<Language, Manner>> = {
  en: { title: 'English', locale: 'en-GB', mark: '.' },
  de: { title: 'Deutsch', locale: 'de-DE', mark: ',' },
};
export const LANGUAGES = Object.keys(MANNERS) as Language[];
