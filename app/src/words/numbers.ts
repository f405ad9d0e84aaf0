// Numbers as people write and read them in a shop. Printed: groups of three apart by a narrow no-break space and the
// language's own decimal mark (ISO 80000-1), never a comma or point for thousands, since one shop's 1,234 is another's
// 1.234. Read: comma or point as the decimal mark, spaces anywhere between digits; what could mean two things is refused.

export type DecimalMark = '.' | ',';

const GROUP_SPACE = '\u202f';
const MINUS = '\u2212';

/** @param places digits after the mark */
export function printNumber(value: number, places: number, mark: DecimalMark = '.'): string {
  const fixed = Math.abs(value).toFixed(places);
  const [whole = '0', part] = fixed.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, GROUP_SPACE);
  const isNegative = value < 0 && Number(fixed) !== 0;
  return `${isNegative ? MINUS : ''}${grouped}${part === undefined ? '' : mark + part}`;
}

/** As many digits as the number has, at most three: 400, 0.4, 12.25. */
export function printPlain(value: number, mark: DecimalMark = '.'): string {
  const places = [0, 1, 2].find((count) => Math.abs(value - Number(value.toFixed(count))) < 5e-4) ?? 3;
  return printNumber(value, places, mark);
}

/** A measured value with all its digits, at most six after the mark: 5.2, 0.0005. */
export function printMeasured(value: number, mark: DecimalMark = '.'): string {
  const places = (/\.(\d*?)0*$/.exec(value.toFixed(6))?.[1] ?? '').length;
  return printNumber(value, places, mark);
}

/** Digits after the mark that a unit deserves: hours and metres tenths, counts none. */
export function placesOf(unit: string): number {
  return unit === 'h' || unit === 'm' ? 1 : 0;
}

/** "1 234.5 h"; a count of things ("1") has no unit sign. */
export function printAmount(value: number, unit: string, mark: DecimalMark = '.'): string {
  const number = printNumber(value, placesOf(unit), mark);
  return unit === '1' || unit === '' ? number : `${number}\u00a0${unit}`;
}

export type Unreadable = 'empty' | 'not a number' | 'two meanings' | 'too many marks';
export type NumberRead = { value: number } | { unreadable: Unreadable };

/** Reads what a person typed; see the head of this file. */
export function readNumber(text: string): NumberRead {
  const bare = text
    .trim()
    .replace(/(?<=\d)[\s\u00a0\u202f](?=\d)/g, '')
    .replace(MINUS, '-');
  if (bare === '') return { unreadable: 'empty' };
  if (!/^[+-]?[\d.,]+$/.test(bare) || !/\d/.test(bare)) return { unreadable: 'not a number' };
  if ((bare.match(/[.,]/g) ?? []).length > 1) return { unreadable: 'too many marks' };
  if (/^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(bare)) return { unreadable: 'two meanings' };
  const value = Number(bare.replace(',', '.'));
  return Number.isFinite(value) ? { value } : { unreadable: 'not a number' };
}

/** For the refusal of "two meanings": both ways to write it plainly. */
export function bothMeanings(text: string): { thousands: string; decimal: string } {
  const digits = text.trim().replace(/[\s\u00a0\u202f]/g, '');
  return { thousands: digits.replace(/[.,]/, ''), decimal: `${digits}0` };
}
