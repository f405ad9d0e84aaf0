import { expect, test } from 'vitest';
import type { GroupPartPlant } from '../../wire/contract';
import { furthestOff } from './far_plants';

const plant = (key: string, failures: number, expected?: number): GroupPartPlant => ({
  ...{ plant: key, title: key, machines: 1, lives: 9, failures, left_out: 0, is_in_weibull_test: true, survival: [] },
  ...(expected === undefined ? {} : { expected }),
});
const keys = (plants: GroupPartPlant[]) => plants.map((one) => one.plant);

test('the plants furthest from what they could expect stay, in their order', () => {
  const all = [plant('a', 5, 5), plant('b', 9, 4), plant('c', 4, 5), plant('d', 0, 5), plant('e', 7)];
  expect(keys(furthestOff(all, 2))).toEqual(['b', 'd']);
  expect(keys(furthestOff(all, 9))).toEqual(['a', 'b', 'c', 'd', 'e']);
});
