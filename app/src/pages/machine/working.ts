// The working of a trigger as rows that can be read aloud: what, how much, from where. What the server computed is
// shown, not computed again; the counter's parts come from the machine's counter of the same load.

import { measuredIn } from '../../parts/bar';
import { calendarWords } from '../../parts/calendar';
import type { Counter, Task, Trigger } from '../../wire/contract';
import { day, moment } from '../../words/times';
import { amount, plainAmount, say } from '../../words/words';

export interface WorkingRow {
  what: string;
  amount: string;
  from: string;
  /** A result, under a line. */
  isResult?: boolean;
}

export interface WorkingGround {
  zone: string;
  now: Date;
  counterTitle: (key: string) => string;
  counter: Counter | undefined;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function whenDone(task: Task, ground: WorkingGround): { when: string; by: string } | null {
  const done = task.last_done;
  return done ? { when: moment(done.at, ground.zone, ground.now), by: done.by } : null;
}

function beganAt(task: Task, ground: WorkingGround): string {
  return task.began_at ? moment(task.began_at, ground.zone, ground.now) : say('time.never');
}

function thenRow(trigger: Trigger, task: Task, ground: WorkingGround, counter: string): WorkingRow {
  const done = whenDone(task, ground);
  const shown = amount(trigger.counter_then ?? 0, trigger.unit ?? '');
  if (done)
    return { what: say('working.counter_then', { counter }), amount: shown, from: say('working.then_source', done) };
  const from = say('working.began_source', { when: beganAt(task, ground) });
  return { what: say('working.counter_began', { counter }), amount: shown, from };
}

function nowSource(ground: WorkingGround): string {
  if (!ground.counter) return '';
  const { counted, filled, adjusted, unit } = ground.counter;
  return say('working.now_source', {
    counted: amount(counted, unit),
    filled: amount(filled, unit),
    adjusted: amount(adjusted ?? 0, unit),
  });
}

function counterRows(trigger: Trigger, task: Task, ground: WorkingGround): WorkingRow[] {
  const unit = trigger.unit ?? '';
  const counter = capital(ground.counterTitle(trigger.counter ?? ''));
  const interval = plainAmount(trigger.interval ?? 0, unit);
  return [
    {
      what: say('working.counter_now', { counter }),
      amount: amount(trigger.counter_now ?? 0, unit),
      from: nowSource(ground),
    },
    thenRow(trigger, task, ground, counter),
    {
      what: say('working.used'),
      amount: amount(trigger.used ?? 0, unit),
      from: say('working.used_source'),
      isResult: true,
    },
    {
      what: say('working.interval'),
      amount: interval,
      from: say('working.interval_source', { version: task.version }),
    },
    {
      what: say('working.left'),
      amount: amount(trigger.left ?? 0, unit),
      from: say('working.left_source'),
      isResult: true,
    },
  ];
}

function calendarRows(trigger: Trigger, task: Task, ground: WorkingGround): WorkingRow[] {
  const done = whenDone(task, ground);
  const begin = done
    ? { what: say('working.last_date'), amount: done.when, from: say('working.then_source', done) }
    : {
        what: say('working.began_date'),
        amount: beganAt(task, ground),
        from: say('working.began_source', { when: beganAt(task, ground) }),
      };
  const interval = say('working.interval_source', { version: task.version });
  const days = say('working.days', { count: trigger.days_left ?? 0 });
  return [
    begin,
    { what: say('working.calendar'), amount: calendarWords(trigger.calendar ?? ''), from: interval },
    {
      what: say('working.due_on'),
      amount: trigger.due_on ? day(trigger.due_on) : '',
      from: say('working.due_on_source'),
      isResult: true,
    },
    { what: say('working.days_left'), amount: days, from: say('working.days_left_source'), isResult: true },
  ];
}

function readingRows(trigger: Trigger): WorkingRow[] {
  const { last_value, read_on, limit = 'warning', limit_at } = trigger;
  return [
    {
      what: say('working.reading_last'),
      amount: last_value === undefined ? '' : measuredIn(trigger, last_value),
      from: read_on === undefined ? say('working.reading_none') : say('working.reading_source', { date: day(read_on) }),
    },
    {
      what: say(`working.reading_limit_${limit}`),
      amount: limit_at === undefined ? '' : measuredIn(trigger, limit_at),
      from: say('working.reading_limit_source'),
      isResult: true,
    },
  ];
}

export function workingRows(trigger: Trigger, task: Task, ground: WorkingGround): WorkingRow[] {
  if (trigger.reading !== undefined) return readingRows(trigger);
  return trigger.calendar === undefined ? counterRows(trigger, task, ground) : calendarRows(trigger, task, ground);
}

/** When the trigger turns coming and overdue, in a sentence. */
export function thresholdsOf(trigger: Trigger): string {
  if (trigger.calendar !== undefined)
    return say('working.thresholds_days', {
      heads_up: say('working.days', { count: trigger.heads_up_days ?? 0 }),
      tolerance: say('working.days', { count: trigger.tolerance_days ?? 0 }),
    });
  if (trigger.reading !== undefined)
    return say('working.thresholds_reading', {
      heads_up: say('working.days', { count: trigger.heads_up_days ?? 0 }),
    });
  const unit = trigger.unit ?? '';
  return say('working.thresholds', {
    heads_up: plainAmount(trigger.heads_up ?? 0, unit),
    tolerance: plainAmount(trigger.tolerance ?? 0, unit),
  });
}
