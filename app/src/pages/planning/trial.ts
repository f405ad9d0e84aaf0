// What is being planned: a stop of a machine on a day and shift with tasks, new or instead of an agreed one. Nothing of it
// is agreed until a person says so.

import { dateOfNumber, dayNumber, weekdayOf } from '../../parts/day_numbers';
import type { HorizonMachine, HorizonTask, KindService, PlantShift, Stop, StopTry } from '../../wire/contract';

export interface Trial {
  machine: string;
  on: string;
  shift: string;
  /** Keys, in the order in which they were chosen. */
  tasks: string[];
  /** The agreed stop that it changes; null: a new one. */
  stop: Stop | null;
}

const SATURDAY = 6;
/** 1 is Monday, as the contract has it. */
const isoWeekday = (on: string) => weekdayOf(dayNumber(on)) + 1;

export const addDays = (on: string, days: number): string => dateOfNumber(dayNumber(on) + days);

/** The first Saturday after a day. */
export function nextSaturday(today: string): string {
  const ahead = (SATURDAY - isoWeekday(today) + 7) % 7;
  return addDays(today, ahead === 0 ? 7 : ahead);
}

const works = (shift: PlantShift, on: string) => shift.weekdays.includes(isoWeekday(on));

/** Whether a shift of the plant works on that day by its calendar; another may be agreed all the same. */
export const worksOn = (shifts: readonly PlantShift[], name: string, on: string): boolean =>
  shifts.some((shift) => shift.name === name && works(shift, on));

/** The shift to take on a day: the one that it was, where it works; else the first that does; else what it was. */
export function shiftOn(shifts: readonly PlantShift[], on: string, before: string): string {
  if (worksOn(shifts, before, on)) return before;
  const known = shifts.some(({ name }) => name === before);
  return (shifts.find((shift) => works(shift, on)) ?? (known ? undefined : shifts[0]))?.name ?? before;
}

/** The day and shift of a trial moved there; never before today. */
export function movedTo(trial: Trial, on: string, shifts: readonly PlantShift[], today: string): Trial {
  const day = on < today ? today : on;
  return { ...trial, on: day, shift: shiftOn(shifts, day, trial.shift) };
}

export const tryOf = ({ machine, on, shift, tasks, stop }: Trial): StopTry => ({
  ...{ machine, on, shift, tasks },
  ...(stop === null ? {} : { stop: stop.id }),
});

/** What agreeing to it would change of the agreed stop; empty where nothing. */
export function changesOf({
  on,
  shift,
  tasks,
  stop,
}: Trial): Partial<Pick<Stop, 'on' | 'shift'> & { tasks: string[] }> {
  if (stop === null) return { on, shift, tasks };
  const before = stop.tasks.map(({ task }) => task);
  const isSame = before.length === tasks.length && before.every((task) => tasks.includes(task));
  return {
    ...(on === stop.on && shift === stop.shift ? {} : { on, shift }),
    ...(isSame ? {} : { tasks }),
  };
}

export const trialOfStop = (stop: Stop): Trial => ({
  machine: stop.machine,
  on: stop.on,
  shift: stop.shift,
  tasks: stop.tasks.map(({ task }) => task),
  stop,
});

/** The agreed stop that holds a task; another than `but`. */
export const holderOf = (stops: readonly Stop[], machine: string, task: string, but?: string): Stop | undefined =>
  stops.find((stop) => stop.machine === machine && stop.id !== but && stop.tasks.some((one) => one.task === task));

const isNow = ({ state }: HorizonTask) => state === 'due' || state === 'overdue';

/** Tasks that want the machine standing and most likely fall due by a day; the urgent ones among them always. */
export function dueBy(machine: HorizonMachine, stops: readonly Stop[], on: string): string[] {
  return machine.tasks
    .filter(({ energy, task }) => energy !== 'in production' && holderOf(stops, machine.machine, task) === undefined)
    .filter((task) => isNow(task) || (task.forecast.median !== null && task.forecast.median <= on))
    .map(({ task }) => task);
}

const DAYS_OF_A_MONTH = 365.25 / 12;

/** The tasks of a service that are done in a stop on that day: those of the machine's that most likely fall due before the
 * service after it would come. What another stop holds is done there. */
export function tasksOfService(
  machine: HorizonMachine,
  stops: readonly Stop[],
  service: Pick<KindService, 'months' | 'tasks'>,
  { on, stop }: Pick<Trial, 'on' | 'stop'>,
): string[] {
  const next = addDays(on, Math.round(service.months * DAYS_OF_A_MONTH));
  const isFree = (task: string) => holderOf(stops, machine.machine, task, stop?.id) === undefined;
  return service.tasks.filter((key) => {
    const task = machine.tasks.find((one) => one.task === key);
    if (task === undefined || !isFree(key)) return false;
    return isNow(task) || (task.forecast.median !== null && task.forecast.median < next);
  });
}

const NEAR_DAYS = 14;

/** A new stop to begin with: tomorrow where something is due, else when its task most likely is; and what falls due soon
 * after comes along. */
export function newTrial(
  machine: HorizonMachine,
  task: string,
  stops: readonly Stop[],
  shifts: readonly PlantShift[],
  today: string,
): Trial {
  const tomorrow = addDays(today, 1);
  const wanted = machine.tasks.find((one) => one.task === task);
  const median = wanted === undefined || isNow(wanted) ? tomorrow : (wanted.forecast.median ?? tomorrow);
  const on = median < tomorrow ? tomorrow : median;
  const along = dueBy(machine, stops, addDays(today, NEAR_DAYS));
  const tasks = task === '' ? along : [task];
  return { machine: machine.machine, on, shift: shiftOn(shifts, on, ''), tasks, stop: null };
}
