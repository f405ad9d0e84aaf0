// Says a text of the catalogue in the language of the pages, with what belongs into it.

import { catalogues, MANNERS } from './catalogue';
import type { Key } from './catalogue';
import { spoken } from './language.svelte';
import { printAmount, printMeasured, printNumber, printPlain } from './numbers';

const plurals = { en: new Intl.PluralRules('en'), de: new Intl.PluralRules('de') };
const decimalMark = () => MANNERS[spoken.name].mark;

type Values = Readonly<Record<string, string | number>>;

/** A number inside a text is printed as numbers are; what must not be (a year) is given as a text. */
const printed = (value: string | number) => (typeof value === 'number' ? printPlain(value, decimalMark()) : value);

function filled(text: string, values: Values): string {
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => printed(values[name] ?? whole));
}

/** The text of a key; `count` chooses the plural form. A language that was not learned says the keys themselves. */
export function say(key: Key, values: Values = {}): string {
  const text = catalogues[spoken.name]?.[key] ?? key;
  if (typeof text === 'string') return filled(text, values);
  return filled(plurals[spoken.name].select(Number(values['count'])) === 'one' ? text.one : text.other, values);
}

export const number = (value: number, places = 0) => printNumber(value, places, decimalMark());
export const plain = (value: number) => printPlain(value, decimalMark());
/** A measured value with all its digits. */
export const measured = (value: number) => printMeasured(value, decimalMark());
export const amount = (value: number, unit: string) => printAmount(value, unit, decimalMark());
/** Today's amount, with a digit more for hours, so that it is seen to move. */
export const liveAmount = (value: number, unit: string) =>
  unit === 'h' ? `${number(value, 2)}\u00a0h` : amount(value, unit);
/** An interval as it was entered, with its unit. */
export const plainAmount = (value: number, unit: string) =>
  unit === '1' || unit === '' ? plain(value) : `${plain(value)}\u00a0${unit}`;
