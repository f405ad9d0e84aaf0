// Local dates as whole numbers, so that they can be counted and drawn: day 0 is 1 January 1970, a Thursday.

const DAY_MS = 86_400_000;

export const dayNumber = (date: string): number => Date.parse(`${date}T00:00:00Z`) / DAY_MS;
export const dateOfNumber = (number: number): string => new Date(number * DAY_MS).toISOString().slice(0, 10);

/** 0 is Monday. */
export const weekdayOf = (number: number): number => (((number + 3) % 7) + 7) % 7;
export const isWeekend = (number: number): boolean => weekdayOf(number) >= 5;

/** The week of the year as ISO 8601 counts: week 1 holds the year's first Thursday. */
export function weekOfYear(number: number): number {
  const thursday = number - weekdayOf(number) + 3;
  const newYear = dayNumber(`${dateOfNumber(thursday).slice(0, 4)}-01-01`);
  return Math.floor((thursday - newYear) / 7) + 1;
}
