import { expect, test } from 'vitest';
import type { Task, TaskState } from '../../../wire/contract';
import { tasksAt, worstOf } from './points';

function task(key: string, state: TaskState, point: number | undefined, share_used = 0): Task {
  const made = {
    key,
    state,
    triggers: [{ state, leads: true, share_used }],
    ...(point === undefined ? {} : { point }),
  };
  return made as unknown as Task;
}

const tasks = [
  task('a', 'in hand', 1, 0.4),
  task('b', 'overdue', 2),
  task('c', 'due', 1),
  task('d', 'in hand', 1, 0.7),
  task('e', 'overdue', undefined),
];

test('the tasks of a point are its own, the most urgent first, then the most used', () => {
  expect(tasksAt(tasks, 1).map((one) => one.key)).toEqual(['c', 'd', 'a']);
  expect(tasksAt(tasks, 2).map((one) => one.key)).toEqual(['b']);
  expect(tasksAt(tasks, 3)).toEqual([]);
});

test('a point stands as its most urgent task does; without tasks it has no state', () => {
  expect(worstOf(tasksAt(tasks, 1))).toBe('due');
  expect(worstOf(tasksAt(tasks, 2))).toBe('overdue');
  expect(worstOf([])).toBeNull();
});
