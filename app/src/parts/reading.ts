// Says in words what is wrong with a number as typed, or nothing.

import { bothMeanings, readNumber } from '../words/numbers';
import type { NumberRead } from '../words/numbers';
import { plain, say } from '../words/words';

export interface NumberLimits {
  /** Must be above zero rather than zero or more. */
  aboveZero?: boolean;
  /** Below zero is right too. */
  anySign?: boolean;
  max?: number;
  whole?: boolean;
}

function limitTrouble(value: number, limits: NumberLimits): string {
  if (limits.aboveZero && value <= 0) return say('form.above_zero');
  if (value < 0 && !limits.anySign) return say('form.not_below_zero');
  if (limits.max !== undefined && value > limits.max) return say('form.at_most', { max: plain(limits.max) });
  return limits.whole && !Number.isInteger(value) ? say('form.whole') : '';
}

/** '' when the text is a number within the limits. */
export function numberTrouble(text: string, limits: NumberLimits = {}): string {
  const read: NumberRead = readNumber(text);
  if ('value' in read) return limitTrouble(read.value, limits);
  switch (read.unreadable) {
    case 'empty':
      return say('form.empty');
    case 'not a number':
      return say('form.not_a_number');
    case 'too many marks':
      return say('form.too_many_marks');
    case 'two meanings':
      return say('form.two_meanings', bothMeanings(text));
  }
}

/** The number of a text that numberTrouble found good. */
export function numberIn(text: string): number {
  const read = readNumber(text);
  if (!('value' in read)) throw new Error(`not a number: ${text}`);
  return read.value;
}

/** A number as a person would type it into a field: without group spaces. */
export const typed = (value: number): string => plain(value).replaceAll('\u202f', '');
