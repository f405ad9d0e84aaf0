// The texts of the pages, by language. A language is complete or the tests fail: English says which keys there are, and
// every other language is typed and tested against it. Only the texts of the language that is spoken are fetched.

import type { en } from './en';
import type { DecimalMark } from './numbers';

export type Key = keyof typeof en;
export type Text = string | { readonly one: string; readonly other: string };
export type Catalogue = Readonly<Record<Key, Text>>;
/** A page's texts in another language than English. */
export type Wording<English> = Readonly<Record<keyof English, Text>>;

export type Language = 'en' | 'de';

interface Manner {
  /** In the language itself, for whoever looks for it. */
  title: string;
  /** For dates. */
  locale: string;
  mark: DecimalMark;
  texts: () => Promise<Catalogue>;
}
export const MANNERS: Readonly<Record<Language, Manner>> = {
  en: { title: 'English', locale: 'en-GB', mark: '.', texts: async () => (await import('./en')).en },
  de: { title: 'Deutsch', locale: 'de-DE', mark: ',', texts: async () => (await import('./de')).de },
};
export const LANGUAGES = Object.keys(MANNERS) as Language[];

/** The texts of every language that was learned since the page was opened. */
export const catalogues: Partial<Record<Language, Catalogue>> = {};

/** Fetches a language's texts, once; it can be spoken when this resolves. Rejects where they cannot be fetched. */
export async function learn(name: Language): Promise<void> {
  catalogues[name] ??= await MANNERS[name].texts();
}
