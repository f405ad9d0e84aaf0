// The texts of the pages, by language. A language is complete or the tests fail: English says which keys there are, and
// every other language is typed and tested against it.

import { en } from './en';

export type Key = keyof typeof en;
export type Text = string | { readonly one: string; readonly other: string };
export type Catalogue = Readonly<Record<Key, Text>>;

export const catalogues = { en } satisfies Record<string, Catalogue>;
export type Language = keyof typeof catalogues;
