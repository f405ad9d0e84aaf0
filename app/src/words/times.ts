// Times as people say them, in the plant's zone. Instants come as RFC 3339 texts, dates as YYYY-MM-DD.

import { MANNERS } from './catalogue';
import { spoken } from './language.svelte';
import { say } from './words';

const formats = new Map<string, Intl.DateTimeFormat>();

function format(zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const locale = MANNERS[spoken.name].locale;
  const key = locale + zone + JSON.stringify(options);
  const made = formats.get(key) ?? new Intl.DateTimeFormat(locale, { timeZone: zone, ...options });
  formats.set(key, made);
  return made;
}

const CLOCK: Intl.DateTimeFormatOptions = { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' };
const DAY: Intl.DateTimeFormatOptions = { weekday: 'short', day: 'numeric', month: 'short' };
const DAY_AND_YEAR: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'short', year: 'numeric' };

function dayIn(zone: string, at: Date): string {
  return format(zone, DAY_AND_YEAR).format(at);
}

/** "06:12" today, "Mon 23 Nov 06:12" this year, "3 Mar 2019" before. */
export function moment(instant: string, zone: string, now: Date): string {
  const at = new Date(instant);
  if (dayIn(zone, at) === dayIn(zone, now)) return format(zone, CLOCK).format(at);
  const daysAgo = Math.abs(now.getTime() - at.getTime()) / 86_400_000;
  if (daysAgo > 300) return dayIn(zone, at);
  return `${format(zone, DAY).format(at)} ${format(zone, CLOCK).format(at)}`;
}

/** "25 Nov 2026, 06:12", for a record: the same whenever it is read. */
export function stamp(instant: string, zone: string): string {
  const at = new Date(instant);
  return `${dayIn(zone, at)}, ${format(zone, CLOCK).format(at)}`;
}

/** "25 Nov 2026" for a local date. */
export function day(date: string): string {
  return format('UTC', DAY_AND_YEAR).format(new Date(`${date}T00:00:00Z`));
}

/** The local date of an instant: "2026-11-25". */
export function dateIn(zone: string, at: Date): string {
  const parts = format(zone, { year: 'numeric', month: '2-digit', day: '2-digit' }).formatToParts(at);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}`;
}

/** The date so many days before. */
export function daysBefore(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) - days * 86_400_000).toISOString().slice(0, 10);
}

/** How long ago, roughly, in one or two units: "40 s", "2 min", "3 h". */
export function age(ms: number): string {
  const seconds = Math.max(0, Math.round(ms / 1000));
  if (seconds < 60) return say('time.seconds', { count: seconds });
  if (seconds < 3_600) return say('time.minutes', { count: Math.floor(seconds / 60) });
  if (seconds < 2 * 86_400) return say('time.hours', { count: Math.floor(seconds / 3_600) });
  return say('time.days', { count: Math.floor(seconds / 86_400) });
}

/** This moment by the device's clock, as the wire takes it. */
export const instantNow = () => new Date().toISOString();

const LONG_DAY: Intl.DateTimeFormatOptions = { day: 'numeric', month: 'long' };
const midday = (date: string) => new Date(`${date}T12:00:00Z`);

/** "14 January 2027" for a local date. */
export function longDay(date: string): string {
  return format('UTC', { ...LONG_DAY, year: 'numeric' }).format(midday(date));
}

/** "5 January", with the year only where it is another than that of `beside`. */
export function longDayBeside(date: string, beside: string): string {
  return date.slice(0, 4) === beside.slice(0, 4) ? format('UTC', LONG_DAY).format(midday(date)) : longDay(date);
}

/** "5 Jan", with the year only where it is another than that of `beside`. */
export function dayBeside(date: string, beside: string): string {
  if (date.slice(0, 4) !== beside.slice(0, 4)) return day(date);
  return format('UTC', { day: 'numeric', month: 'short' }).format(midday(date));
}

/** "January 2027", "Jan 2027" or "Jan", as long as there is room for. */
export function monthName(date: string, length: 'long' | 'short' | 'bare'): string {
  if (length === 'bare') return format('UTC', { month: 'short' }).format(midday(date));
  return format('UTC', { month: length, year: 'numeric' }).format(midday(date));
}

/** "Mon" for a local date, or "M". */
export function weekdayName(date: string, length: 'short' | 'narrow'): string {
  return format('UTC', { weekday: length }).format(midday(date));
}

/** "Sat, 28 November 2026", for a day that something is planned on. */
export const plannedDay = (date: string) => `${weekdayName(date, 'short')}, ${longDay(date)}`;

/** The date and time of an instant as a field for both has it: "2026-11-28T06:00". */
export function fieldIn(zone: string, at: Date): string {
  return `${dateIn(zone, at)}T${format(zone, CLOCK).format(at)}`;
}

/** The instant of what stands in such a field; of an hour that clocks skip, that much later; '' for no time. */
export function instantIn(zone: string, field: string): string {
  const wanted = Date.parse(`${field}Z`);
  if (Number.isNaN(wanted)) return '';
  // The zone's offset is known for an instant only: guess one, and mend it by what it is off. Twice, for a guess may lie
  // on the other side of a change of clocks.
  let at = wanted;
  for (let tries = 0; tries < 2; tries += 1) at += wanted - Date.parse(`${fieldIn(zone, new Date(at))}Z`);
  return new Date(at).toISOString();
}
