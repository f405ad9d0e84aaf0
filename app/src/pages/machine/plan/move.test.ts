import { expect, test } from 'vitest';
import { movedFrom, nearestTo, put, shifted, step } from './move';

const PLACES = [
  { number: 1, x: 0.5, y: 0.5 },
  { number: 2, x: 0.9, y: 0.1 },
];

test('a point is put elsewhere, and the others stay', () => {
  expect(put(PLACES, { number: 2, x: 0.25, y: 0.75 })).toEqual([PLACES[0], { number: 2, x: 0.25, y: 0.75 }]);
});
test('no step leads beyond the plan', () => {
  const far = step(PLACES, 2, { x: 0.5, y: -0.5 });
  expect(far[1]).toEqual({ number: 2, x: 1, y: 0 });
});
test('ten steps there and ten back end where they began', () => {
  let places = step(PLACES, 1, { x: 0, y: 0 });
  for (let count = 0; count < 10; count += 1) places = step(places, 1, { x: 0.01, y: -0.01 });
  for (let count = 0; count < 10; count += 1) places = step(places, 1, { x: -0.01, y: 0.01 });
  expect(movedFrom(PLACES, places)).toEqual([]);
});
test('only what moved is sent', () => {
  expect(movedFrom(PLACES, put(PLACES, { number: 1, x: 0.1, y: 0.1 }))).toEqual([{ number: 1, x: 0.1, y: 0.1 }]);
});
test('a place with more digits than are kept has not moved', () => {
  const fine = [{ number: 1, x: 1 / 3, y: 0.5 }];
  expect(movedFrom(fine, step(fine, 1, { x: 0, y: 0 }))).toEqual([]);
});
test('the nearest point is found', () => {
  expect(nearestTo(PLACES, { x: 0.8, y: 0.2 })).toBe(2);
  expect(nearestTo([], { x: 0, y: 0 })).toBeNull();
});
test('a point goes earlier and later, not beyond the ends', () => {
  expect(shifted([1, 2, 3], 3, -1)).toEqual([1, 3, 2]);
  expect(shifted([1, 2, 3], 1, 1)).toEqual([2, 1, 3]);
  expect(shifted([1, 2, 3], 1, -1)).toEqual([1, 2, 3]);
  expect(shifted([1, 2, 3], 3, 1)).toEqual([1, 2, 3]);
  expect(shifted([1, 2, 3], 9, 1)).toEqual([1, 2, 3]);
});
