// Which machines and tasks the Horizon shows, and where each of them belongs: now, within the weeks that are seen, later,
// not within ten years, or without a forecast.

import { dayNumber } from '../../parts/day_numbers';
import { folded } from '../../parts/folded';
import { kindOf } from '../../parts/forecast_words';
import type { HorizonMachine, HorizonTask, Skill, Titled } from '../../wire/contract';

export interface Choice {
  cell: string;
  search: string;
  skill: Skill | '';
  /** Only what is most likely due by this local date; '' for all. */
  by: string;
}

export type TaskPlace = 'now' | 'dated' | 'never' | 'refused';

/** A task with its days as numbers; null: beyond ten years. */
export interface DatedTask {
  task: HorizonTask;
  machine: HorizonMachine;
  place: TaskPlace;
  first: number | null;
  median: number;
  last: number | null;
}

export interface DatedMachine {
  machine: HorizonMachine;
  tasks: DatedTask[];
}

const numberOf = (date: string | null) => (date === null ? null : dayNumber(date));

function dated(machine: HorizonMachine, task: HorizonTask): DatedTask {
  const { first, median, last } = task.forecast;
  const kind = kindOf(task.forecast, task.state);
  const place = kind === 'now' || kind === 'never' || kind === 'refused' ? kind : 'dated';
  return { task, machine, place, first: numberOf(first), median: numberOf(median) ?? Infinity, last: numberOf(last) };
}

/** Reads all dates once. */
export const datedMachines = (machines: readonly HorizonMachine[]): DatedMachine[] =>
  machines.map((machine) => ({ machine, tasks: machine.tasks.map((task) => dated(machine, task)) }));

/**
 * Machines with the tasks that fit; a machine without any is left out. Words that a machine's name, key or kind holds
 * keep all its tasks, else only those whose title holds them.
 * @param kindTitle the title of a kind's key
 */
export function chosen(machines: readonly DatedMachine[], choice: Choice, kindTitle: (key: string) => string) {
  const search = folded(choice.search);
  const by = choice.by === '' ? Infinity : dayNumber(choice.by);
  const isNamed = ({ name, machine, kind }: HorizonMachine) =>
    folded(`${name} ${machine} ${kindTitle(kind)}`).includes(search);
  const fits = ({ task, place, median }: DatedTask) =>
    (choice.skill === '' || task.skill === choice.skill) && (choice.by === '' || place === 'now' || median <= by);
  return machines
    .filter(({ machine }) => choice.cell === '' || machine.cell === choice.cell)
    .map(({ machine, tasks }) => {
      const fitting = tasks.filter(fits);
      const named = search === '' || isNamed(machine);
      return { machine, tasks: named ? fitting : fitting.filter(({ task }) => folded(task.title).includes(search)) };
    })
    .filter(({ tasks }) => tasks.length > 0);
}

export interface CellGroup<Row> {
  cell: Titled;
  rows: Row[];
}

/** Rows under their cells, both in the shop's order; a cell that the shop does not list comes last, under its key. */
export function byCell<Row>(rows: readonly Row[], cellOf: (row: Row) => string, cells: readonly Titled[]) {
  const known = new Set(cells.map((cell) => cell.key));
  const strays = [...new Set(rows.map(cellOf).filter((key) => !known.has(key)))];
  return [...cells, ...strays.map((key) => ({ key, title: key }))]
    .map((cell): CellGroup<Row> => ({ cell, rows: rows.filter((row) => cellOf(row) === cell.key) }))
    .filter((group) => group.rows.length > 0);
}

/** The soonest first: what is overdue, due, then by the most likely day. */
export function bySoonest(a: DatedTask, b: DatedTask): number {
  const rank = ({ task, place }: DatedTask) => (place === 'now' ? (task.state === 'overdue' ? 0 : 1) : 2);
  return rank(a) - rank(b) || (rank(a) < 2 ? 0 : a.median - b.median);
}
