// Where things stand on the bar of used and left. The bar is one interval and a quarter long: the due line stands at
// four fifths, what is used beyond it shows as overrun, and the heads-up has its own line before.

import type { Task, Trigger } from '../wire/contract';
import { amount, plainAmount, say } from '../words/words';
import { everyWords } from './calendar';
import { printReading } from './judge';

export const DUE_AT = 80;

export interface BarPlaces {
  /** Per cent of the width, from the start. */
  used: number;
  /** Per cent beyond the due line; 0 while nothing is over. */
  over: number;
  /** Where coming begins; null when it is not on a counter or there is no heads-up. */
  headsUp: number | null;
}

const clamped = (value: number, max: number) => Math.min(Math.max(value, 0), max);

export function placesOn(trigger: Trigger): BarPlaces {
  const share = trigger.share_used ?? 0;
  const { interval, heads_up } = trigger;
  return {
    used: clamped(share, 1) * DUE_AT,
    over: clamped(share - 1, 0.25) * DUE_AT,
    headsUp: interval && heads_up ? clamped(1 - heads_up / interval, 1) * DUE_AT : null,
  };
}

/** The trigger that decides the task's state. */
export function leaderOf(task: Task): Trigger | undefined {
  return task.triggers.find((trigger) => trigger.leads) ?? task.triggers[0];
}

function daysLeft(days: number): string {
  if (days === 0) return say('bar.due_today');
  return days > 0 ? say('bar.days_left', { count: days }) : say('bar.days_over', { count: -days });
}

/** What was read since, and how that stands to the limit: "5.7 bar read". */
function readSince(trigger: Trigger): string {
  if (trigger.last_value === undefined) return say('bar.reading_none');
  const value = measuredIn(trigger, trigger.last_value);
  return say(trigger.state === 'due' ? 'bar.reading_beyond' : 'bar.reading_now', { value });
}

/** A value of the trigger's reading with its unit. */
export function measuredIn(trigger: Trigger, value: number): string {
  return printReading({ what: trigger.reading ?? '', unit: trigger.unit ?? '' }, value);
}

/** "188.4 h left", "3.2 h over", "6 days left" */
export function leftOf(trigger: Trigger): string {
  if (trigger.calendar !== undefined) return daysLeft(trigger.days_left ?? 0);
  if (trigger.reading !== undefined) return readSince(trigger);
  const left = trigger.left ?? 0;
  const unit = trigger.unit ?? '';
  return left >= 0 ? say('bar.left', { amount: amount(left, unit) }) : say('bar.over', { amount: amount(-left, unit) });
}

/** "of 4 000 h operating", "every 12 months" */
export function intervalOf(trigger: Trigger, counterTitle: (key: string) => string): string {
  if (trigger.calendar !== undefined) return everyWords(trigger.calendar);
  if (trigger.reading !== undefined)
    return say(`bar.by_reading_${trigger.limit ?? 'warning'}`, {
      reading: trigger.reading,
      at: measuredIn(trigger, trigger.limit_at ?? 0),
    });
  const interval = plainAmount(trigger.interval ?? 0, trigger.unit ?? '');
  return say('bar.of', { interval, counter: counterTitle(trigger.counter ?? '') });
}
