// The texts of the pages, by language. A language is complete or the tests fail: English says which keys there are, and
// every other language is typed and tested against it. Only the texts of the language that is spoken are fetched: first
// those of the first page, later the rest, with the first page that is fetched itself.

import type { en } from './en';
import type { later } from './english/later';
import type { DecimalMark } from './numbers';

export type Text = string | { readonly one: string; readonly other: string };
/** A page's texts in another language than English. */
export type Wording<English> = Readonly<Record<keyof English, Text>>;
export type FirstTexts = Wording<typeof en>;
export type LaterTexts = Wording<typeof later>;
export type Key = keyof FirstTexts | keyof LaterTexts;
export type Catalogue = FirstTexts & Partial<LaterTexts>;

export type Language = 'en' | 'de';

interface Manner {
  /** In the language itself, for whoever looks for it. */
  title: string;
  /** For dates. */
  locale: string;
  mark: DecimalMark;
  first: () => Promise<FirstTexts>;
  later: () => Promise<LaterTexts>;
}
export const MANNERS: Readonly<Record<Language, Manner>> = {
  en: {
    ...{ title: 'English', locale: 'en-GB', mark: '.' },
    first: async () => (await import('./en')).en,
    later: async () => (await import('./english/later')).later,
  },
  de: {
    ...{ title: 'Deutsch', locale: 'de-DE', mark: ',' },
    first: async () => (await import('./de')).de,
    later: async () => (await import('./german/later')).later,
  },
};
export const LANGUAGES = Object.keys(MANNERS) as Language[];

/** The texts of every language that was learned since the page was opened. */
export const catalogues: Partial<Record<Language, Catalogue>> = {};
/** Has a page been opened that needs the later texts? Then they are learned with every language. */
let areAllWanted = false;
const whole = new Set<Language>();

/** Fetches a language's texts, once; it can be spoken when this resolves. Rejects where they cannot be fetched. */
export async function learn(name: Language): Promise<void> {
  const first = catalogues[name] ?? (await MANNERS[name].first());
  const later = areAllWanted && !whole.has(name) ? await MANNERS[name].later() : null;
  catalogues[name] = { ...first, ...catalogues[name], ...later };
  if (later !== null) whole.add(name);
}

/** The same with the texts of the pages that are fetched later. */
export async function learnAll(name: Language): Promise<void> {
  areAllWanted = true;
  await learn(name);
}
