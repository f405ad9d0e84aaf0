// Says a text of the catalogue in the language of the pages, with what belongs into it.

import { catalogues } from './catalogue';
import type { Catalogue, Key, Language } from './catalogue';
import { printAmount, printNumber, printPlain } from './numbers';
import type { DecimalMark } from './numbers';

export const language: Language = 'en';
const decimalMark: DecimalMark = '.';

const texts: Catalogue = catalogues[language];
const plurals = new Intl.PluralRules(language);

type Values = Readonly<Record<string, string | number>>;

function filled(text: string, values: Values): string {
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

/** The text of a key; `count` chooses the plural form. */
export function say(key: Key, values: Values = {}): string {
  const text = texts[key];
  if (typeof text === 'string') return filled(text, values);
  return filled(plurals.select(Number(values['count'])) === 'one' ? text.one : text.other, values);
}

export const number = (value: number, places = 0) => printNumber(value, places, decimalMark);
export const plain = (value: number) => printPlain(value, decimalMark);
export const amount = (value: number, unit: string) => printAmount(value, unit, decimalMark);
/** An interval as it was entered, with its unit. */
export const plainAmount = (value: number, unit: string) =>
  unit === '1' || unit === '' ? plain(value) : `${plain(value)}\u00a0${unit}`;
