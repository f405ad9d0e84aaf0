// Closing a stop: the form's fields as a person fills them, what is wrong with them, and what the outbox takes. Times
// stand in the fields in the plant's zone. Minutes, readings and as found may be left empty: nobody knows them then.

import type { Entered } from '../../outbox/entered';
import { isOpened } from '../../parts/as_found';
import { numberIn, numberTrouble } from '../../parts/reading';
import { readTyped } from '../../parts/typed_reading';
import type { AsFound, ReadValue, StopCard, StopDone, Task } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { fieldIn, instantIn, instantNow } from '../../words/times';
import { say } from '../../words/words';
import { kitUsed, quantityTrouble, serialsTrouble, usedParts } from '../stores/moves';
import type { MoveLine } from '../stores/moves';

const MINUTES_MAX = 10_080;

export interface TaskDraft {
  /** '' while nobody has said so. */
  state: '' | 'done' | 'left undone';
  asFound: '' | AsFound;
  /** One text a reading of the task. */
  readings: string[];
  quantity: string;
  minutes: string;
  note: string;
}

export interface CloseDraft {
  tasks: Record<string, TaskDraft>;
  began: string;
  ended: string;
  note: string;
  /** What was really used of the stores' parts; empty where they keep none. */
  used: MoveLine[];
}

/** By field: "task.minutes", "task.reading.0", "began", "used.0"; empty when nothing is wrong. */
export type CloseTroubles = Record<string, string>;

const emptyTask = (task: Task): TaskDraft => ({
  state: '',
  asFound: '',
  readings: (task.readings ?? []).map(() => ''),
  quantity: '',
  minutes: '',
  note: '',
});

/** Begins with the shift's beginning, or with now where that is still to come, and ends now. */
export function emptyClosing({ stop, tasks, readiness }: StopCard, zone: string, now: Date): CloseDraft {
  const begins = new Date(stop.begins_at);
  return {
    tasks: Object.fromEntries(tasks.map((task) => [task.key, emptyTask(task)])),
    began: fieldIn(zone, begins < now ? begins : now),
    ended: fieldIn(zone, now),
    note: '',
    used: kitUsed(readiness?.lines ?? [], []),
  };
}

/** Keys of the tasks that are said to be done. */
export const doneTasks = ({ tasks }: CloseDraft): string[] =>
  Object.entries(tasks)
    .filter(([, { state }]) => state === 'done')
    .map(([key]) => key);

/** A kept draft as far as it fits the card as it is now: tasks may have come or gone. */
export function fitted(kept: CloseDraft, fresh: CloseDraft): CloseDraft {
  const tasks = Object.entries(fresh.tasks).map(([key, task]) => {
    const own = kept.tasks[key];
    return [key, own?.readings.length === task.readings.length ? own : task] as const;
  });
  const used = fresh.used.map((line) => kept.used.find(({ part }) => part === line.part) ?? line);
  return { ...kept, tasks: Object.fromEntries(tasks), used };
}

const optionalNumber = (text: string, max?: number) =>
  text.trim() === '' ? '' : numberTrouble(text, max === undefined ? {} : { max });

function taskTroubles(task: Task, draft: TaskDraft): CloseTroubles {
  if (draft.state === '') return { [`${task.key}.state`]: say('closing.say_each') };
  if (draft.state === 'left undone') return {};
  const readings = (task.readings ?? []).map((reading, index) => {
    const typed = draft.readings[index] ?? '';
    const read = readTyped(reading, typed);
    return [`${task.key}.reading.${index}`, typed.trim() !== '' && 'wrong' in read ? read.wrong : ''] as const;
  });
  return {
    ...Object.fromEntries(readings),
    [`${task.key}.quantity`]: optionalNumber(draft.quantity),
    [`${task.key}.minutes`]: optionalNumber(draft.minutes, MINUTES_MAX),
  };
}

function timeTroubles({ began, ended }: CloseDraft, zone: string): CloseTroubles {
  const [from, until] = [instantIn(zone, began), instantIn(zone, ended)];
  if (from === '' || until === '') return { [from === '' ? 'began' : 'ended']: say('closing.time_missing') };
  return until < from ? { ended: say('closing.ended_before') } : {};
}

function usedTroubles({ used }: CloseDraft): CloseTroubles {
  return Object.fromEntries(
    used.flatMap((line, index) => [
      [`used.${index}`, quantityTrouble(line, true)],
      [`used.${index}.serials`, numberTrouble(line.quantity) === '' ? serialsTrouble(line, 'taken') : ''],
    ]),
  );
}

export function closeTroubles(card: StopCard, draft: CloseDraft, zone: string): CloseTroubles {
  const all = card.tasks.map((task) => taskTroubles(task, draft.tasks[task.key] ?? emptyTask(task)));
  const found = Object.entries(
    Object.assign({}, ...all, timeTroubles(draft, zone), usedTroubles(draft)) as CloseTroubles,
  );
  return Object.fromEntries(found.filter(([, trouble]) => trouble !== ''));
}

function readingsOf(task: Task, draft: TaskDraft): ReadValue[] {
  return (task.readings ?? []).flatMap((reading, index) => {
    const read = readTyped(reading, draft.readings[index] ?? '');
    return 'value' in read ? [{ what: reading.what, unit: reading.unit, value: read.value }] : [];
  });
}

function doneOf(task: Task, draft: TaskDraft): StopDone {
  const readings = readingsOf(task, draft);
  return {
    id: newId(),
    task: task.key,
    ...(draft.asFound !== '' && isOpened(task) ? { as_found: draft.asFound } : {}),
    ...(readings.length > 0 ? { readings } : {}),
    ...(draft.quantity.trim() === '' ? {} : { quantity: numberIn(draft.quantity) }),
    ...(draft.minutes.trim() === '' ? {} : { minutes: numberIn(draft.minutes) }),
    ...(draft.note.trim() === '' ? {} : { note: draft.note.trim() }),
  };
}

/** Only for a draft without troubles. */
export function closeStop(card: StopCard, draft: CloseDraft, by: string, zone: string): Entered<'closeStop'> {
  const { stop, machine, tasks } = card;
  const done = tasks.filter(({ key }) => draft.tasks[key]?.state === 'done');
  const [began_at, ended_at] = [instantIn(zone, draft.began), instantIn(zone, draft.ended)];
  return {
    operation: 'closeStop',
    path: { stop: stop.id },
    body: {
      ...{ id: newId(), by, at: instantNow(), version: stop.version, began_at, ended_at },
      ...(draft.note.trim() === '' ? {} : { note: draft.note.trim() }),
      done: done.map((task) => doneOf(task, draft.tasks[task.key] ?? emptyTask(task))),
      ...(draft.used.length === 0 ? {} : { used: { id: newId(), lines: usedParts(draft.used) } }),
    },
    about: { machine: machine.key, what: say('closing.about', { done: done.length, of: tasks.length }) },
  };
}
