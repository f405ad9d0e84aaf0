// Money as a sum that is planned with: whole units, the currency's sign behind it.

import { number } from './words';

const SIGNS: Readonly<Record<string, string>> = { EUR: '€', USD: '$', GBP: '£', JPY: '¥' };

/** "1 234 €"; of a currency without a known sign its code. */
export const money = (value: number, currency: string): string =>
  `${number(value)}\u00a0${SIGNS[currency] ?? currency}`;

/** "12.50 €": what one piece of something costs. */
export const price = (value: number, currency: string): string =>
  `${number(value, 2)}\u00a0${SIGNS[currency] ?? currency}`;
