import { expect, test } from 'vitest';
import type { Finding, Task, TaskState, Trigger } from '../../../wire/contract';
import { findingsAt, isCheck, tasksAt, worstOf } from './points';

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

test('what is done each shift, day, week or before start-up is a check of a round', () => {
  const on = (trigger: Partial<Trigger>) => ({ triggers: [trigger] }) as unknown as Task;
  expect(['1 start-up', '1 shift', '1 day', '1 week'].every((calendar) => isCheck(on({ calendar })))).toBe(true);
  expect(['2 weeks', '1 month'].some((calendar) => isCheck(on({ calendar })))).toBe(false);
  expect(isCheck(on({ counter: 'operating', interval: 8 }))).toBe(false);
});

test('a finding belongs to its point, or to that of the check at which it was found', () => {
  const finding = (more: Partial<Finding>) => more as Finding;
  const findings = [finding({ point: 1 }), finding({ check: 'b/pressure' }), finding({ check: 'gone' }), finding({})];
  expect(findingsAt({ findings, tasks }, 1)).toEqual([findings[0]]);
  expect(findingsAt({ findings, tasks }, 2)).toEqual([findings[1]]);
});
