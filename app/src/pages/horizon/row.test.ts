import { describe, expect, test } from 'vitest';
import { many } from '../../../fake/horizon.mjs';
import { Shop } from '../../../fake/shop.mjs';
import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { Horizon, HorizonTask, TaskState } from '../../wire/contract';
import { axisOf, WEEKS } from './axis';
import { byCell, bySoonest, chosen, datedMachines } from './choose';
import { beforeWidth, FINE, markAt, rowOf } from './row';
import { pathsOf } from './shapes';

const today = dayNumber('2026-11-25');
const axis = axisOf(today, 13, 910 + beforeWidth(FINE), beforeWidth(FINE));

function task(
  title: string,
  first: number | null,
  median: number | null,
  last: number | null,
  state: TaskState = 'in hand',
) {
  const date = (days: number | null) => (days === null ? null : dateOfNumber(today + days));
  const forecast = {
    first: date(first),
    median: date(median),
    last: date(last),
    overdue_median: null,
    leads: 'spindle',
  };
  const more = { assembly: 'spindle', skill: 'technician', energy: 'isolated', minutes: 30 } as const;
  return { task: title, title, state, forecast, ...more } satisfies HorizonTask;
}

function machine(tasks: HorizonTask[]) {
  const [made] = datedMachines([{ machine: 'm01', name: 'Alder', kind: 'lathe', cell: 'shafts', tasks }]);
  if (made === undefined) throw new Error('no machine');
  return made;
}

test('a task stands at its most likely day with its range around it', () => {
  const row = rowOf(machine([task('Oil', 20, 30, 45)]), axis, FINE);
  const mark = row.marks[0];
  expect(mark?.x).toBeCloseTo(axis.before + 305);
  expect(mark?.whisker).toEqual({ from: axis.before + 205, to: axis.before + 455, isOpen: false });
});

test('an exact date has no whisker; a range beyond the weeks stays open', () => {
  const row = rowOf(
    machine([task('Belt', 10, 10, 10), task('Oil', 60, 80, 120), task('Fan', 60, 80, null)]),
    axis,
    FINE,
  );
  expect(row.marks.map(({ whisker }) => whisker?.isOpen)).toEqual([undefined, true, true]);
});

test('what is overdue and due stands before today, the overdue first', () => {
  const row = rowOf(machine([task('Due', 0, 0, 0, 'due'), task('Late', 0, 0, 0, 'overdue')]), axis, FINE);
  expect(row.marks.map(({ state }) => state)).toEqual(['overdue', 'due']);
  for (const { x } of row.marks) expect(x + FINE.radius).toBeLessThan(axis.before);
});

test('later, never and refused are counted', () => {
  const refused = task('New', null, null, null);
  const tasks = [task('A', 80, 91, 99), task('B', 80, 90, 99), task('C', null, null, null)];
  const row = rowOf(
    machine([...tasks, { ...refused, forecast: { ...refused.forecast, refused: 'No day yet.' } }]),
    axis,
    FINE,
  );
  expect([row.marks.length, row.later, row.never, row.refused]).toEqual([1, 1, 1, 1]);
});

test('a title is written only where it fits', () => {
  const row = rowOf(machine([task('Oil', 2, 3, 4), task('A title that is too long for it', 8, 9, 10)]), axis, FINE);
  expect(row.marks.map(({ titleAt }) => titleAt !== null)).toEqual([true, true]);
  const tight = rowOf(machine([task('A title that is too long for it', 2, 3, 4), task('Oil', 8, 9, 10)]), axis, FINE);
  expect(tight.marks.map(({ titleAt }) => titleAt !== null)).toEqual([false, true]);
});

test('a place finds the nearest mark, else the whisker that passes there', () => {
  const row = rowOf(machine([task('Oil', 20, 30, 45), task('Belt', 21, 31, 44)]), axis, FINE);
  const [oil, belt] = row.marks;
  expect(markAt(row, (oil?.x ?? 0) + 3, oil?.y ?? 0, 8)).toBe(oil);
  expect(markAt(row, (belt?.whisker?.to ?? 0) - 2, belt?.y ?? 0, 8)).toBe(belt);
  expect(markAt(row, 20, 20, 8)).toBeUndefined();
});

test('each state has its own shape, each mark one', () => {
  const states: TaskState[] = ['in hand', 'coming', 'due', 'overdue'];
  const row = rowOf(machine(states.map((state, index) => task(state, 9, 10 + index, 20, state))), axis, FINE);
  const paths = pathsOf(row.marks, FINE.radius);
  const counted = Object.fromEntries(Object.entries(paths).map(([name, path]) => [name, path.split('z').length - 1]));
  expect(counted).toEqual({ whiskers: 0, circles: 2, halves: 1, due: 1, overdue: 1 });
  expect(paths.whiskers.match(/H/g)).toHaveLength(2);
});

describe('of the invented shop', () => {
  const horizon = new Shop().dates.horizon(null) as Horizon;
  const all = { cell: '', search: '', skill: '', by: '' } as const;
  const titled = (key: string) => key;
  const machines = datedMachines(horizon.machines);
  const tasksOf = (found: typeof machines) => found.flatMap(({ tasks }) => tasks);

  test('nothing is chosen away by choosing nothing', () => {
    expect(tasksOf(chosen(machines, all, titled))).toHaveLength(tasksOf(machines).length);
  });
  test('words choose machines by name and tasks by title', () => {
    expect(chosen(machines, { ...all, search: 'YEW' }, titled).map((one) => one.machine.name)).toEqual(['Yew']);
    const oil = tasksOf(chosen(machines, { ...all, search: 'oil' }, titled));
    expect(oil.length).toBeGreaterThan(0);
    for (const { task } of oil) expect(task.title.toLowerCase()).toContain('oil');
  });
  test('"by" keeps what is due now and what is most likely due by then', () => {
    const by = dateOfNumber(dayNumber(horizon.today) + 14);
    for (const { place, median } of tasksOf(chosen(machines, { ...all, by }, titled)))
      expect(place === 'now' || median <= dayNumber(by)).toBe(true);
  });
  test('the list begins with what is overdue and then follows the days', () => {
    const states = tasksOf(machines)
      .toSorted(bySoonest)
      .map(({ task, place, median }) => [place === 'now' ? task.state : 'x', median]);
    expect(states[0]?.[0]).toBe('overdue');
    const ahead = states.filter(([state]) => state === 'x').map(([, median]) => median as number);
    expect(ahead).toEqual(ahead.toSorted((a, b) => a - b));
  });
  test('cells keep their order and a stray cell is shown', () => {
    const groups = byCell(machines, ({ machine }) => machine.cell, [{ key: 'finishing', title: 'Finishing' }]);
    expect(groups.map(({ cell }) => cell.key)).toEqual(['finishing', 'housings', 'shafts']);
  });
  test.each(WEEKS)('every task of 200 machines is drawn or counted once, %i weeks', (weeks) => {
    const wide = axisOf(dayNumber(horizon.today), weeks, 1160, beforeWidth(FINE));
    for (const one of datedMachines((many(horizon, 200, 40) as Horizon).machines)) {
      const row = rowOf(one, wide, FINE);
      expect(row.marks.length + row.later + row.never + row.refused).toBe(one.tasks.length);
      for (const mark of row.marks) expect(mark.y + FINE.radius).toBeLessThanOrEqual(row.height);
    }
  });
});
