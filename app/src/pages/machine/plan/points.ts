// Which checks, tasks and open findings belong to a point of a machine, and how the most urgent of them stands.

import { leaderOf } from '../../../parts/bar';
import { STATES } from '../../../parts/states';
import type { Finding, Machine, Task, TaskState } from '../../../wire/contract';

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

/** Intervals of the rounds, as src/catalogue/round.h has them. */
const ROUNDS = ['1 start-up', '1 shift', '1 day', '1 week'];

/** Is the task a check of a round, answered there? */
export function isCheck(task: Task): boolean {
  return task.triggers.some((trigger) => ROUNDS.includes(trigger.calendar ?? ''));
}

/** The open findings at a point: found there, or at a check of a task that is done there. */
export function findingsAt(machine: Pick<Machine, 'findings' | 'tasks'>, number: number): Finding[] {
  const pointOf = (check: string) => machine.tasks.find((task) => task.key === check.split('/')[0])?.point;
  return machine.findings.filter(({ point, check }) => (point ?? (check ? pointOf(check) : undefined)) === number);
}
