// A calendar interval as the wire has it, "12 months", read and said.

import { say } from '../words/words';

const SPANS = ['start-up', 'shift', 'day', 'week', 'month', 'year'] as const;

export interface Calendar {
  count: number;
  span: (typeof SPANS)[number];
}

/** "12 months" -> 12 and month; null for what is not so. */
export function readCalendar(text: string): Calendar | null {
  const [, count, word] = /^(\d+) ([a-z-]+?)s?$/.exec(text) ?? [];
  const span = SPANS.find((one) => one === word);
  return span ? { count: Number(count), span } : null;
}

/** "12 months" in the language of the pages. */
export function calendarWords(text: string): string {
  const calendar = readCalendar(text);
  return calendar ? say(`calendar.${calendar.span}`, { count: calendar.count }) : text;
}

/** "every 12 months" */
export function everyWords(text: string): string {
  const calendar = readCalendar(text);
  return calendar ? say(`bar.every_${calendar.span}`, { count: calendar.count }) : text;
}
