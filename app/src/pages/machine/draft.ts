// A task while a person writes it: every field as text, so that nothing typed is lost; checked into what the server
// takes, or into one sentence a field that says what would be right.

import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { Demand, Energy, Part, Skill, Task, TaskEdit, WorkType } from '../../wire/contract';
import { say } from '../../words/words';
import { costDraft, costEdit, costTroubles, shownCosts } from './cost_draft';
import type { CostDraft } from './cost_draft';
import { readingDraft, readingEdit, readingTroubles, shownReading, unitTrouble } from './reading_draft';
import type { ReadingDraft } from './reading_draft';
import { allTriggerTroubles, emptyTrigger, shownTrigger, triggerDraft, triggerEdit } from './trigger_draft';
import type { TriggerDraft } from './trigger_draft';

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
