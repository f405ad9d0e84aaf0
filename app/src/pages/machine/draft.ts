// A task while a person writes it: every field as text, so that nothing typed is lost; checked into what the server
// takes, or into one sentence a field that says what would be right.

import { counterTitle } from '../../parts/titles';
import { numberIn, numberTrouble } from '../../parts/reading';
import type {
  Demand,
  Energy,
  LimitKind,
  Part,
  Skill,
  Task,
  TaskEdit,
  Trigger,
  TriggerEdit,
  WorkType,
} from '../../wire/contract';
import { plain, say } from '../../words/words';
import { costDraft, costEdit, costTroubles, shownCosts } from './cost_draft';
import type { CostDraft } from './cost_draft';
import { readingDraft, readingEdit, readingTroubles, shownReading, unitTrouble } from './reading_draft';
import type { ReadingDraft } from './reading_draft';

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

export interface PartDraft {
  name: string;
  quantity: string;
  unit: string;
}

export interface TaskDraft {
  title: string;
  assembly: string;
  /** A point's number, or ''. */
  point: string;
  work: WorkType;
  skill: Skill;
  energy: Energy;
  minutes: string;
  triggers: TriggerDraft[];
  steps: string;
  reason: string;
  caution: string;
  parts: PartDraft[];
  readings: ReadingDraft[];
  /** Of a top up; '' for none. */
  quantityUnit: string;
  /** Keys of the machine's tasks that come before it in a stop. */
  after: string[];
  demandedBy: Demand;
  costs: CostDraft;
}

/** By field: "title", "triggers.0.interval". */
export type Troubles = Record<string, string>;

const TITLE_MAX = 120;
const MINUTES_MAX = 10_080;

// Numbers in fields are written without group spaces, as a person would type them.
const typed = (value: number) => plain(value).replaceAll('\u202f', '');

export function emptyTrigger(on: string): TriggerDraft {
  return { on, limit: 'warning', interval: '', span: 'month', headsUp: '0', tolerance: '0' };
}

export function emptyDraft(assembly: string, counter: string): TaskDraft {
  return {
    title: '',
    assembly,
    point: '',
    work: 'inspect',
    skill: 'operator',
    energy: 'powered at rest',
    minutes: '10',
    triggers: [emptyTrigger(counter)],
    steps: '',
    reason: '',
    caution: '',
    parts: [],
    readings: [],
    quantityUnit: '',
    after: [],
    demandedBy: 'nobody',
    costs: costDraft(undefined),
  };
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

function triggerDraft(trigger: Trigger): TriggerDraft {
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

export function draftOf(task: Task): TaskDraft {
  return {
    title: task.title,
    assembly: task.assembly,
    point: task.point === undefined ? '' : String(task.point),
    work: task.work,
    skill: task.skill,
    energy: task.energy,
    minutes: typed(task.minutes),
    triggers: task.triggers.map(triggerDraft),
    steps: task.steps.join('\n'),
    reason: task.reason,
    caution: task.caution,
    parts: task.parts.map((part) => ({ ...part, quantity: typed(part.quantity) })),
    readings: (task.readings ?? []).map(readingDraft),
    quantityUnit: task.quantity_unit ?? '',
    after: [...(task.after ?? [])],
    demandedBy: task.demanded_by ?? 'nobody',
    costs: costDraft(task.costs),
  };
}

function titleTrouble(title: string): string {
  const length = title.trim().length;
  if (length === 0) return say('form.required');
  return length > TITLE_MAX ? say('form.too_long', { max: TITLE_MAX, count: length }) : '';
}

function triggerTroubles(trigger: TriggerDraft): Troubles {
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

function allTriggerTroubles(triggers: TriggerDraft[]): Troubles {
  const troubles: Troubles = {};
  triggers.forEach((trigger, index) => {
    for (const [field, trouble] of Object.entries(triggerTroubles(trigger)))
      troubles[`triggers.${index}.${field}`] = trouble;
    const isRepeated = triggers.findIndex((other) => other.on === trigger.on) < index;
    troubles[`triggers.${index}.on`] = isRepeated ? say('form.same_trigger') : '';
  });
  return troubles;
}

function partTroubles(parts: PartDraft[]): Troubles {
  const troubles: Troubles = {};
  parts.forEach((part, index) => {
    troubles[`parts.${index}.name`] = part.name.trim() === '' ? say('form.required') : '';
    troubles[`parts.${index}.quantity`] = numberTrouble(part.quantity, { aboveZero: true });
    troubles[`parts.${index}.unit`] = part.unit.trim() === '' ? say('form.required') : '';
  });
  return troubles;
}

/** What is wrong, by field; empty when the draft can be sent. */
export function troublesOf(draft: TaskDraft): Troubles {
  const all: Troubles = {
    title: titleTrouble(draft.title),
    minutes: numberTrouble(draft.minutes, { max: MINUTES_MAX }),
    ...allTriggerTroubles(draft.triggers),
    ...partTroubles(draft.parts),
    ...readingTroubles(draft.readings),
    ...costTroubles(draft.costs),
    quantityUnit: draft.quantityUnit.trim() === '' ? '' : unitTrouble(draft.quantityUnit),
  };
  return Object.fromEntries(Object.entries(all).filter(([, trouble]) => trouble !== ''));
}

function triggerEdit(trigger: TriggerDraft): TriggerEdit {
  const [interval, before, beyond] = [trigger.interval, trigger.headsUp, trigger.tolerance].map(numberIn) as [
    number,
    number,
    number,
  ];
  const read = readingOn(trigger.on);
  if (read !== null) return { ...read, limit: trigger.limit, heads_up_days: before };
  if (trigger.on === CALENDAR)
    return { calendar: printCalendar(interval, trigger.span), heads_up_days: before, tolerance_days: beyond };
  return { counter: trigger.on, interval, heads_up: before, tolerance: beyond };
}

function partEdit(part: PartDraft): Part {
  return { name: part.name.trim(), quantity: numberIn(part.quantity), unit: part.unit.trim() };
}

/** Only a top up has a quantity. */
function quantityUnitEdit(draft: TaskDraft): { quantity_unit?: string } {
  const unit = draft.quantityUnit.trim();
  return draft.work === 'top up' && unit !== '' ? { quantity_unit: unit } : {};
}

/** What the server takes. Only for a draft without troubles. */
export function editOf(draft: TaskDraft, sign: { id: string; by: string; version?: number }): TaskEdit {
  const lines = draft.steps.split('\n').map((line) => line.trim());
  return {
    ...sign,
    title: draft.title.trim(),
    assembly: draft.assembly,
    ...(draft.point === '' ? {} : { point: Number(draft.point) }),
    work: draft.work,
    skill: draft.skill,
    energy: draft.energy,
    minutes: numberIn(draft.minutes),
    triggers: draft.triggers.map(triggerEdit),
    steps: lines.filter((line) => line !== ''),
    reason: draft.reason.trim(),
    caution: draft.caution.trim(),
    parts: draft.parts.map(partEdit),
    readings: draft.readings.map(readingEdit),
    ...quantityUnitEdit(draft),
    after: [...draft.after],
    demanded_by: draft.demandedBy,
    costs: costEdit(draft.costs),
  };
}

export interface Difference {
  field: keyof TaskDraft;
  mine: string;
  theirs: string;
}

function shownTrigger(trigger: TriggerDraft): string {
  const read = readingOn(trigger.on);
  if (read !== null) return `${read.reading}: ${say(`form.limit_${trigger.limit}`)} (−${trigger.headsUp})`;
  const on = trigger.on === CALENDAR ? say(`form.unit_${trigger.span}`) : counterTitle(trigger.on);
  const what = `${trigger.interval} ${on}`;
  return `${what} (−${trigger.headsUp}, +${trigger.tolerance})`;
}

function shownOne(one: TriggerDraft | PartDraft | ReadingDraft): string {
  if ('on' in one) return shownTrigger(one);
  return 'what' in one ? shownReading(one) : `${one.quantity} ${one.unit} ${one.name}`;
}

function shown(draft: TaskDraft, field: keyof TaskDraft, titleOf: TitleOf): string {
  if (field === 'work') return say(`work.${draft.work}`);
  if (field === 'skill') return say(`skill.${draft.skill}`);
  if (field === 'energy') return say(`energy.${draft.energy}`);
  if (field === 'demandedBy') return say(`demand.${draft.demandedBy}`);
  if (field === 'costs') return shownCosts(draft.costs);
  if (field === 'after') return draft.after.map(titleOf).join('; ');
  const value = draft[field];
  if (typeof value === 'string') return value;
  return value.map(shownOne).join('; ');
}

/** What people call the task with that key. */
type TitleOf = (task: string) => string;

/** The fields in which two drafts differ, for a person to choose between them. */
export function differences(mine: TaskDraft, theirs: TaskDraft, titleOf: TitleOf): Difference[] {
  return (Object.keys(mine) as Array<keyof TaskDraft>)
    .map((field) => ({ field, mine: shown(mine, field, titleOf), theirs: shown(theirs, field, titleOf) }))
    .filter((one) => one.mine !== one.theirs);
}
