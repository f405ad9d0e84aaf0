// The states of a task, the most urgent first, and counting by them.

import type { FloorMachine, Tally, TaskState } from '../wire/contract';

export const STATES: readonly TaskState[] = ['overdue', 'due', 'coming', 'in hand'];

/** How many of the things are in each state. */
export function countStates(states: readonly TaskState[]): Record<TaskState, number> {
  const counts: Record<TaskState, number> = { 'in hand': 0, coming: 0, due: 0, overdue: 0 };
  for (const state of states) counts[state] += 1;
  return counts;
}

export function tallied(tally: Tally, state: TaskState): number {
  return { 'in hand': tally.in_hand, coming: tally.coming, due: tally.due, overdue: tally.overdue }[state];
}

/** The state of a machine's most urgent task; a machine without tasks has none that worries. */
export function urgencyOf(machine: FloorMachine): TaskState {
  return STATES.find((state) => tallied(machine.tally, state) > 0) ?? 'in hand';
}
