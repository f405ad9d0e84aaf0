import { describe, expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { Horizon, HorizonMachine, HorizonTask, Stop } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import {
  addDays,
  changesOf,
  dueBy,
  holderOf,
  movedTo,
  newTrial,
  nextSaturday,
  shiftOn,
  tasksOfService,
  trialOfStop,
} from './trial';

const SHIFTS = [
  { name: 'early', begins: '06:00', ends: '14:00', weekdays: [1, 2, 3, 4, 5] },
  { name: 'late', begins: '14:00', ends: '22:00', weekdays: [1, 2, 3, 4, 5] },
  { name: 'weekend', begins: '07:00', ends: '15:00', weekdays: [6] },
];
const [FRIDAY, SATURDAY, SUNDAY] = ['2026-11-27', '2026-11-28', '2026-11-29'];

test('the next Saturday is after today, also on a Saturday', () => {
  expect([FRIDAY, SATURDAY, SUNDAY, '2026-11-30'].map(nextSaturday)).toEqual([
    SATURDAY,
    '2026-12-05',
    '2026-12-05',
    '2026-12-05',
  ]);
});

test('a shift stays where it works, else the first that works that day is taken, else it stays all the same', () => {
  expect(shiftOn(SHIFTS, FRIDAY, 'late')).toBe('late');
  expect(shiftOn(SHIFTS, SATURDAY, 'late')).toBe('weekend');
  expect(shiftOn(SHIFTS, SUNDAY, 'late')).toBe('late');
  expect(shiftOn(SHIFTS, SUNDAY, '')).toBe('early');
  expect(shiftOn([], SUNDAY, '')).toBe('');
});

describe('of the invented shop', () => {
  const shop = new Shop();
  const horizon = shop.dates.horizon(null) as Horizon;
  const machine = horizon.machines[0] as HorizonMachine;
  const keys = machine.tasks.slice(0, 2).map(({ task }) => task);
  const on = addDays(horizon.today, 3);
  const stop = shop.stops.agree(machine.machine, { id: newId(), by: 'A', on, shift: 'early', tasks: keys }) as Stop;

  test('moved before today it stands today', () => {
    const trial = trialOfStop(stop);
    expect(movedTo(trial, addDays(horizon.today, -4), horizon.shifts, horizon.today).on).toBe(horizon.today);
    expect(movedTo(trial, addDays(on, 7), horizon.shifts, horizon.today).on).toBe(addDays(on, 7));
  });
  test('agreeing changes only what is another than before', () => {
    const trial = trialOfStop(stop);
    expect(changesOf(trial)).toEqual({});
    expect(changesOf({ ...trial, tasks: keys.toReversed() })).toEqual({});
    expect(changesOf({ ...trial, tasks: keys.slice(1) })).toEqual({ tasks: keys.slice(1) });
    expect(changesOf({ ...trial, shift: 'late' })).toEqual({ on, shift: 'late' });
  });
  test('what an agreed stop holds is not planned twice', () => {
    expect(holderOf([stop], machine.machine, keys[0] ?? '')?.id).toBe(stop.id);
    expect(holderOf([stop], machine.machine, keys[0] ?? '', stop.id)).toBeUndefined();
    expect(dueBy(machine, [stop], '2099-01-01')).not.toContain(keys[0]);
  });
  test('a new stop is tomorrow or later, with its task alone or with what is due soon', () => {
    for (const { task } of machine.tasks) {
      const trial = newTrial(machine, task, [], horizon.shifts, horizon.today);
      expect(trial.tasks).toEqual([task]);
      expect(trial.on > horizon.today).toBe(true);
    }
    const all = newTrial(machine, '', [stop], horizon.shifts, horizon.today);
    expect(all.tasks).toEqual(dueBy(machine, [stop], addDays(horizon.today, 14)));
  });
  test('a service brings what falls due before the next one, but not what another stop holds', () => {
    const [first, second, third] = machine.tasks.slice(0, 3) as [HorizonTask, HorizonTask, HorizonTask];
    const due = (task: HorizonTask, median: string | null): HorizonTask => ({
      ...{ ...task, state: 'in hand' },
      forecast: { ...task.forecast, median },
    });
    const service = { months: 12, tasks: [third.task, second.task, first.task, 'not-there'] };
    const tasksFor = (medians: Array<string | null>, stops: Stop[] = [], its: Stop | null = null) => {
      const tasks = [first, second, third].map((task, index) => due(task, medians[index] ?? null));
      return tasksOfService({ ...machine, tasks }, stops, service, { on: SATURDAY, stop: its });
    };
    expect(tasksFor(['2027-11-27', '2027-11-28', null])).toEqual([first.task]);
    expect(tasksFor(['2027-01-01', '2027-01-02', '2026-01-03'])).toEqual([third.task, second.task, first.task]);
    expect(tasksFor(['2027-01-01', '2027-01-02', '2026-01-03'], [stop])).toEqual([third.task]);
    expect(tasksFor(['2027-01-01', '2027-01-02', '2026-01-03'], [stop], stop)).toHaveLength(3);
    const overdue = { ...machine, tasks: [{ ...due(first, null), state: 'overdue' as const }] };
    expect(tasksOfService(overdue, [], service, { on: SATURDAY, stop: null })).toEqual([first.task]);
  });
});
