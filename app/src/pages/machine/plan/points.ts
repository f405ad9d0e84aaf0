// Which tasks belong to a point of a machine, and how the most urgent of them stands.

import { leaderOf } from '../../../parts/bar';
import { STATES } from '../../../parts/states';
import type { Task, TaskState } from '../../../wire/contract';

const usedUp = (task: Task) => leaderOf(task)?.share_used ?? 0;

/** The tasks at a point, the most urgent first. */
export function tasksAt(tasks: readonly Task[], number: number): Task[] {
  const here = tasks.filter((task) => task.point === number);
  return here.sort((a, b) => STATES.indexOf(a.state) - STATES.indexOf(b.state) || usedUp(b) - usedUp(a));
}

/** The state of the most urgent task; null where there is none. */
export function worstOf(tasks: readonly Task[]): TaskState | null {
  return STATES.find((state) => tasks.some((task) => task.state === state)) ?? null;
}
