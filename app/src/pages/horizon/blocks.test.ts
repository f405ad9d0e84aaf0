import { expect, test } from 'vitest';
import { Shop } from '../../../fake/shop.mjs';
import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { Difference, Horizon, Stop } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { axisOf, WEEKS } from './axis';
import { agreedStop, proposedStop } from './blocks';
import { datedMachines } from './choose';
import { beforeWidth, blockAt, FINE, rowOf } from './row';
import type { Row } from './row';

const shop = new Shop();
const horizon = shop.dates.horizon(null) as Horizon;
const today = dayNumber(horizon.today);
const axisFor = (weeks: (typeof WEEKS)[number]) => axisOf(today, weeks, 1160, beforeWidth(FINE));
const planned = horizon.machines.slice(0, 6).map(({ machine, tasks }, index) => {
  const keys = tasks.slice(0, 1 + index * 2).map(({ task }) => task);
  const edit = { id: newId(), by: 'A', on: dateOfNumber(today + 2 + index * 3), shift: 'early', tasks: keys };
  return shop.stops.agree(machine, edit) as Stop;
});
const rowsFor = (weeks: (typeof WEEKS)[number]): Row[] =>
  datedMachines(horizon.machines).map((one) => {
    const own = planned.filter(({ machine }) => machine === one.machine.machine).map(agreedStop);
    return rowOf(one, axisFor(weeks), FINE, own);
  });

test.each(WEEKS)('an agreed stop holds its tasks, and each task is drawn once, %i weeks', (weeks) => {
  for (const [index, row] of rowsFor(weeks).entries()) {
    const held = row.blocks.flatMap(({ marks }) => marks.map(({ dated }) => dated.task.task));
    expect(held.sort()).toEqual((planned[index]?.tasks.map(({ task }) => task) ?? []).sort());
    const loose = row.marks.map(({ dated }) => dated.task.task);
    expect(new Set([...loose, ...held]).size).toBe(loose.length + held.length);
  }
});

test.each(WEEKS)('a block holds its marks within itself and the row, and nothing covers it, %i weeks', (weeks) => {
  for (const row of rowsFor(weeks))
    for (const block of row.blocks) {
      const [left, top] = [block.x - block.width / 2, block.y - block.height / 2];
      expect(top).toBeGreaterThanOrEqual(0);
      expect(top + block.height).toBeLessThanOrEqual(row.height);
      expect(left).toBeGreaterThanOrEqual(axisFor(weeks).before);
      for (const { x, y } of block.marks) {
        expect(Math.abs(x - block.x) + FINE.radius).toBeLessThanOrEqual(block.width / 2);
        expect(Math.abs(y - block.y) + FINE.radius).toBeLessThanOrEqual(block.height / 2);
      }
      const covering = row.marks.filter((mark) => blockAt(row, mark.x, mark.y) === block);
      expect(covering).toEqual([]);
    }
});

test('a stop stands in the middle of its day, one that is over stands today', () => {
  const [stop] = planned as [Stop];
  const axis = axisFor(4);
  const [machine] = datedMachines(horizon.machines.slice(0, 1));
  if (machine === undefined) throw new Error('no machine');
  const at = (on: string) => rowOf(machine, axis, FINE, [agreedStop({ ...stop, on })]).blocks[0]?.x ?? 0;
  expect(at(dateOfNumber(today + 5))).toBeCloseTo(axis.before + 5.5 * axis.dayWidth);
  expect(at(dateOfNumber(today - 5))).toBeCloseTo(at(dateOfNumber(today)));
});

test('a proposed stop leaves the marks where they are', () => {
  const difference: Difference = {
    ...{ key: 'k', kind: 'new', machine: 'm01', on: dateOfNumber(today + 9), shift: 'early', energy: 'isolated' },
    ...{ tasks: horizon.machines[0]?.tasks.map(({ task }) => task) ?? [], minutes: 60, saving: 1, reasons: [] },
    accepted: false,
  };
  const [machine] = datedMachines(horizon.machines.slice(0, 1));
  const proposed = proposedStop(difference);
  if (machine === undefined || proposed === null) throw new Error('nothing is proposed');
  const axis = axisFor(13);
  const row = rowOf(machine, axis, FINE, [proposed]);
  expect(row.marks).toHaveLength(rowOf(machine, axis, FINE).marks.length);
  expect(row.stands.some(({ block }) => block !== undefined)).toBe(false);
  expect(proposedStop({ ...difference, accepted: true })).toBeNull();
});
