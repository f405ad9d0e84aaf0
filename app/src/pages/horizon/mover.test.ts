import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import type { Horizon, HorizonMachine, Stop } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { addDays } from '../planning/trial';
import { dayOf, heldOver } from './mover.svelte';

const shop = new Shop();
const horizon = shop.dates.horizon(null) as Horizon;
const machine = horizon.machines[0] as HorizonMachine;
const [first, second] = machine.tasks.map(({ task }) => task) as [string, string];
const on = addDays(horizon.today, 4);
const edit = { id: newId(), by: 'A', on, shift: 'early', tasks: [first] };
const stop = shop.stops.agree(machine.machine, edit) as Stop;
const ground = { stops: [stop], shifts: horizon.shifts, today: horizon.today };

test('a stop that is held goes to the day with all its tasks', () => {
  const day = addDays(on, 7);
  expect(heldOver({ stop }, day, ground)).toMatchObject({ on: day, tasks: [first], stop: { id: stop.id } });
  expect(dayOf({ stop }, ground)).toBe(on);
});

test('a task over a day without a stop makes a new one, over a stop it goes into it', () => {
  const held = { machine, task: second };
  expect(heldOver(held, addDays(on, 1), ground)).toMatchObject({ on: addDays(on, 1), tasks: [second], stop: null });
  expect(heldOver(held, on, ground)).toMatchObject({ on, tasks: [first, second], stop: { id: stop.id } });
});

test('nothing is set down before today', () => {
  const before = addDays(horizon.today, -3);
  expect(heldOver({ stop }, before, ground).on).toBe(horizon.today);
  expect(heldOver({ machine, task: second }, before, ground).on).toBe(horizon.today);
});
