// A trigger while a person writes it: on a counter, on the calendar, or by another task's reading.

import { numberIn, numberTrouble, typed } from '../../parts/reading';
import { counterTitle } from '../../parts/titles';
import type { LimitKind, Trigger, TriggerEdit } from '../../wire/contract';
import { say } from '../../words/words';

export const CALENDAR = 'calendar';
const READING = 'reading ';

/** What a trigger by a reading counts on, among counters and the calendar. */
export const onReading = (of: string, reading: string): string => `${READING}${of}/${reading}`;

/** The task and the reading again; null for a counter or the calendar. */
export function readingOn(on: string): { of: string; reading: string } | null {
  if (!on.startsWith(READING)) return null;
  const [of = '', ...rest] = on.slice(READING.length).split('/');
  return { of, reading: rest.join('/') };
}

export const SPANS = ['start-up', 'shift', 'day', 'week', 'month'] as const;
export type Span = (typeof SPANS)[number];

export interface TriggerDraft {
  /** A counter's key, CALENDAR, or a reading (`onReading`). */
  on: string;
  /** Of a reading. */
  limit: LimitKind;
  /** Amount of the counter, or how many spans. */
  interval: string;
  span: Span;
  headsUp: string;
  tolerance: string;
}

export function emptyTrigger(on: string): TriggerDraft {
  return { on, limit: 'warning', interval: '', span: 'month', headsUp: '0', tolerance: '0' };
}

/** "12 months" -> 12 and month; what is not so is kept as a text that the person sees refused. */
function readCalendar(calendar: string): { interval: string; span: Span } {
  const [count = '', word = ''] = calendar.split(' ');
  const span = SPANS.find((one) => word === one || word === `${one}s`);
  return span ? { interval: count, span } : { interval: calendar, span: 'month' };
}

export function printCalendar(count: number, span: Span): string {
  return `${count} ${span}${count === 1 ? '' : 's'}`;
}

export function triggerDraft(trigger: Trigger): TriggerDraft {
  if (trigger.reading !== undefined)
    return {
      ...emptyTrigger(onReading(trigger.of ?? '', trigger.reading)),
      limit: trigger.limit ?? 'warning',
      headsUp: typed(trigger.heads_up_days ?? 0),
    };
  if (trigger.calendar !== undefined)
    return {
      on: CALENDAR,
      limit: 'warning',
      ...readCalendar(trigger.calendar),
      headsUp: typed(trigger.heads_up_days ?? 0),
      tolerance: typed(trigger.tolerance_days ?? 0),
    };
  return {
    on: trigger.counter ?? '',
    limit: 'warning',
    interval: typed(trigger.interval ?? 0),
    span: 'month',
    headsUp: typed(trigger.heads_up ?? 0),
    tolerance: typed(trigger.tolerance ?? 0),
  };
}

function triggerTroubles(trigger: TriggerDraft): Record<string, string> {
  if (readingOn(trigger.on) !== null) return { headsUp: numberTrouble(trigger.headsUp, { whole: true }) };
  const whole = trigger.on === CALENDAR;
  const interval = numberTrouble(trigger.interval, { aboveZero: true, whole });
  const headsUp = numberTrouble(trigger.headsUp, { whole });
  const isEarly =
    !whole && interval === '' && headsUp === '' && numberIn(trigger.headsUp) >= numberIn(trigger.interval);
  return {
    interval,
    headsUp: isEarly ? say('form.heads_up_below') : headsUp,
    tolerance: numberTrouble(trigger.tolerance, { whole }),
  };
}

export function allTriggerTroubles(triggers: TriggerDraft[]): Record<string, string> {
  const troubles: Record<string, string> = {};
  triggers.forEach((trigger, index) => {
    for (const [field, trouble] of Object.entries(triggerTroubles(trigger)))
      troubles[`triggers.${index}.${field}`] = trouble;
    const isRepeated = triggers.findIndex((other) => other.on === trigger.on) < index;
    troubles[`triggers.${index}.on`] = isRepeated ? say('form.same_trigger') : '';
  });
  return troubles;
}

export function triggerEdit(trigger: TriggerDraft): TriggerEdit {
  const before = numberIn(trigger.headsUp);
  const read = readingOn(trigger.on);
  if (read !== null) return { ...read, limit: trigger.limit, heads_up_days: before };
  const [interval, beyond] = [numberIn(trigger.interval), numberIn(trigger.tolerance)];
  if (trigger.on === CALENDAR)
    return { calendar: printCalendar(interval, trigger.span), heads_up_days: before, tolerance_days: beyond };
  return { counter: trigger.on, interval, heads_up: before, tolerance: beyond };
}

export function shownTrigger(trigger: TriggerDraft): string {
  const read = readingOn(trigger.on);
  if (read !== null) return `${read.reading}: ${say(`form.limit_${trigger.limit}`)} (−${trigger.headsUp})`;
  const on = trigger.on === CALENDAR ? say(`form.unit_${trigger.span}`) : counterTitle(trigger.on);
  const what = `${trigger.interval} ${on}`;
  return `${what} (−${trigger.headsUp}, +${trigger.tolerance})`;
}
