// A reading as a person types it at the machine, with a gloved hand; the same rules as the server's
// (src/condition/typed_reading.cpp), so that nothing is refused there that was taken here:
//
//   typed  := blanks [sign] digits-with-one-mark blanks [unit] blanks
//   mark   := "," or "."                the decimal mark; digits may be apart by blanks: 1 234,5
//   sign   := "+", "-" or U+2212
//
// What could mean two things is refused rather than guessed, and what the unit cannot be as well: a strength below 0 or
// above 100 %, a pH outside 0 to 14, a temperature below absolute zero, a negative level, amount, time or count.

import type { TaskReading } from '../wire/contract';
import { measured, say } from '../words/words';

const TYPED_MAX = 60;
const VALUE_MAX = 1e9;

// A pressure gauge may show a vacuum and a dial gauge go either way, so bar and mm are not here.
const RANGES: Readonly<Record<string, { min: number; max?: number }>> = {
  '%': { min: 0, max: 100 },
  ph: { min: 0, max: 14 },
  '°c': { min: -273.15 },
};
const NOT_NEGATIVE = 'k h min s l ml kg g piece pc mm/s l/min l/h 1/min °dh µs/cm'.split(' ');

export type TypedReading = { value: number } | { wrong: string };

const folded = (unit: string) => unit.toLowerCase();

/** The number without the blanks between its digits, and what follows it. */
function split(typed: string): { number: string; unit: string } {
  const text = typed
    .replace(/[\u00a0\u202f\t]/g, ' ')
    .replaceAll('\u2212', '-')
    .trim();
  const number = /^[-+\d., ]*/.exec(text)?.[0] ?? '';
  return { number: number.trim().replace(/(?<=\d) (?=\d)/g, ''), unit: text.slice(number.length).trim() };
}

function digitsTrouble(reading: TaskReading, digits: string, typed: string): string {
  if (!/^[\d.,]*$/.test(digits) || !/\d/.test(digits))
    return say('typed.no_number', { what: reading.what, typed, unit: reading.unit });
  if ((digits.match(/[.,]/g) ?? []).length > 1) return say('typed.marks', { what: reading.what, typed });
  return '';
}

function unitTrouble(reading: TaskReading, unit: string, typed: string): string {
  if (unit === '' || folded(unit) === folded(reading.unit)) return '';
  if (/^e[-+\d]/i.test(unit)) return say('typed.no_number', { what: reading.what, typed, unit: reading.unit });
  return say('typed.other_unit', { what: reading.what, typed: unit, unit: reading.unit });
}

function meaningTrouble(reading: TaskReading, number: string, digits: string): string {
  if (!/^[1-9]\d{0,2}[.,]\d{3}$/.test(digits)) return '';
  const thousands = number.replace(/[.,]/, '');
  return say('typed.two_meanings', { what: reading.what, typed: number, thousands, decimal: `${number}0` });
}

/** '' when a gauge in this unit can show the value at all. */
function rangeTrouble(reading: TaskReading, value: number): string {
  const { what, unit } = reading;
  if (Math.abs(value) > VALUE_MAX) return say('typed.too_much', { what });
  const range = RANGES[folded(unit)] ?? (NOT_NEGATIVE.includes(folded(unit)) ? { min: 0 } : undefined);
  const said = { what, value: measured(value), unit };
  if (range && value < range.min) return say('typed.below', { ...said, min: measured(range.min) });
  if (range?.max !== undefined && value > range.max) return say('typed.above', { ...said, max: measured(range.max) });
  return '';
}

/** The value in the reading's unit, or what is wrong with a sentence of what would be right. */
export function readTyped(reading: TaskReading, typed: string): TypedReading {
  if (typed.length > TYPED_MAX) return { wrong: say('typed.too_long', { what: reading.what, unit: reading.unit }) };
  const { number, unit } = split(typed);
  const digits = number.replace(/^[-+]/, '');
  const wrong =
    digitsTrouble(reading, digits, typed.trim()) ||
    unitTrouble(reading, unit, typed.trim()) ||
    meaningTrouble(reading, number, digits);
  if (wrong !== '') return { wrong };
  const size = Number(digits.replace(',', '.'));
  const value = number.startsWith('-') && size !== 0 ? -size : size;
  const trouble = rangeTrouble(reading, value);
  return trouble === '' ? { value } : { wrong: trouble };
}
