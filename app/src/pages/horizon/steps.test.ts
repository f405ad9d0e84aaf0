import { expect, test } from 'vitest';
import type { Row } from './row';
import { placeOf, stepTo } from './steps';

const rowAt = (machine: string, ...xs: number[]) =>
  ({ machine: { machine }, stands: xs.map((x) => ({ x, key: `at ${x}` })) }) as unknown as Row;
const rows = [rowAt('m01', 10, 50, 90), rowAt('m02'), rowAt('m03', 20, 60), rowAt('m04', 95)];

test('left and right stop at the ends of the row', () => {
  expect(stepTo(rows, { row: 0, at: 0 }, 'ArrowRight')).toEqual({ row: 0, at: 1 });
  expect(stepTo(rows, { row: 0, at: 2 }, 'ArrowRight')).toEqual({ row: 0, at: 2 });
  expect(stepTo(rows, { row: 0, at: 2 }, 'Home')).toEqual({ row: 0, at: 0 });
  expect(stepTo(rows, { row: 2, at: 0 }, 'End')).toEqual({ row: 2, at: 1 });
});

test('up and down go to the nearest mark and pass machines without any', () => {
  expect(stepTo(rows, { row: 0, at: 1 }, 'ArrowDown')).toEqual({ row: 2, at: 1 });
  expect(stepTo(rows, { row: 2, at: 0 }, 'ArrowUp')).toEqual({ row: 0, at: 0 });
  expect(stepTo(rows, { row: 0, at: 0 }, 'ArrowUp')).toEqual({ row: 0, at: 0 });
  expect(stepTo(rows, { row: 0, at: 0 }, 'PageDown')).toEqual({ row: 3, at: 0 });
});

test('other keys lead nowhere', () => expect(stepTo(rows, { row: 0, at: 0 }, 'Tab')).toBeUndefined());

test('a task that is not shown is looked for at the first mark', () => {
  expect(placeOf(rows, 'm03', 'at 60')).toEqual({ row: 2, at: 1 });
  expect(placeOf(rows, 'm02', 'at 60')).toEqual({ row: 0, at: 0 });
  expect(placeOf(rows.slice(1), 'm01', 'at 10')).toEqual({ row: 1, at: 0 });
});
