// The time axis of the Horizon: which day stands where, which months, weeks and days are named, which days are shaded.
// Lengths in px. Days are cut at the plant's midnight; the server gives them as local dates, so no zone is needed here.

import { dateOfNumber, isWeekend, weekdayOf, weekOfYear } from '../../parts/day_numbers';

export interface Axis {
  /** Day number of today. */
  today: number;
  days: number;
  /** Width of the plot, what stands before today included. */
  width: number;
  /** Width of what stands before today: overdue and due tasks. */
  before: number;
  dayWidth: number;
}

export interface Span {
  x: number;
  width: number;
}
export interface MonthSpan extends Span {
  /** Its first day that is seen. */
  date: string;
}
export interface WeekSpan extends Span {
  number: number;
}
export interface DaySpan extends Span {
  date: string;
}
export interface Shade extends Span {
  /** A day on which the plant is closed although it is no weekend. */
  isClosed: boolean;
}

export const WEEKS = [4, 13, 26, 52] as const;
export type Weeks = (typeof WEEKS)[number];

const DAYS_NAMED_PX = 19;

export function axisOf(today: number, weeks: Weeks, width: number, before: number): Axis {
  const days = weeks * 7;
  return { today, days, width, before, dayWidth: Math.max(0, width - before) / days };
}

/** The left edge of a day. */
export const leftOfDay = (axis: Axis, day: number): number => axis.before + (day - axis.today) * axis.dayWidth;
/** Due days are days: their mark stands in the middle of the day. */
export const middleOfDay = (axis: Axis, day: number): number => leftOfDay(axis, day) + axis.dayWidth / 2;
/** The day at a place; null before today. */
export function dayAt(axis: Axis, x: number): number | null {
  return x < axis.before ? null : axis.today + Math.min(axis.days - 1, Math.floor((x - axis.before) / axis.dayWidth));
}

/** Neighbouring days with the same key as one span each. */
function runs<Key>(axis: Axis, keyOf: (day: number) => Key): Array<{ key: Key; day: number; span: Span }> {
  const found: Array<{ key: Key; day: number; span: Span }> = [];
  for (let day = axis.today; day < axis.today + axis.days; day += 1) {
    const [key, last] = [keyOf(day), found.at(-1)];
    if (last !== undefined && last.key === key) last.span.width += axis.dayWidth;
    else found.push({ key, day, span: { x: leftOfDay(axis, day), width: axis.dayWidth } });
  }
  return found;
}

export function monthsOf(axis: Axis): MonthSpan[] {
  const monthOf = (day: number) => dateOfNumber(day).slice(0, 7);
  return runs(axis, monthOf).map(({ day, span }) => ({ ...span, date: dateOfNumber(day) }));
}

export function weeksOf(axis: Axis): WeekSpan[] {
  const mondayOf = (day: number) => day - weekdayOf(day);
  return runs(axis, mondayOf).map(({ day, span }) => ({ ...span, number: weekOfYear(day) }));
}

/** Empty where a day is too narrow to be named. */
export function daysOf(axis: Axis): DaySpan[] {
  if (axis.dayWidth < DAYS_NAMED_PX) return [];
  return runs(axis, (day) => day).map(({ day, span }) => ({ ...span, date: dateOfNumber(day) }));
}

/** @param closed day numbers */
export function shadesOf(axis: Axis, closed: ReadonlySet<number>): Shade[] {
  const kindOf = (day: number) => (isWeekend(day) ? 'weekend' : closed.has(day) ? 'closed' : 'open');
  return runs(axis, kindOf)
    .filter(({ key }) => key !== 'open')
    .map(({ key, span }) => ({ ...span, isClosed: key === 'closed' }));
}
