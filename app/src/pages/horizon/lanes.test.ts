import { describe, expect, test } from 'vitest';
import { randomFrom } from '../../../fake/random.mjs';
import { lanesIn, packed } from './lanes';
import type { Extent } from './lanes';

const same = (extent: Extent) => extent;

test('neighbours share a lane, what overlaps does not', () => {
  const places = packed(
    [
      { left: 0, right: 10 },
      { left: 5, right: 20 },
      { left: 12, right: 30 },
    ],
    same,
    2,
    100,
  );
  expect(places.map(({ lane }) => lane)).toEqual([0, 1, 0]);
});

test('the gap is kept', () => {
  expect(
    lanesIn(
      packed(
        [
          { left: 0, right: 10 },
          { left: 11, right: 20 },
        ],
        same,
        2,
        100,
      ),
    ),
  ).toBe(2);
  expect(
    lanesIn(
      packed(
        [
          { left: 0, right: 10 },
          { left: 12, right: 20 },
        ],
        same,
        2,
        100,
      ),
    ),
  ).toBe(1);
});

test('room reaches to the next in the lane, or to the end', () => {
  const places = packed(
    [
      { left: 40, right: 50 },
      { left: 0, right: 10 },
    ],
    same,
    2,
    100,
  );
  expect(places.map(({ room }) => room)).toEqual([30, 50]);
});

test('nothing needs no lane', () => expect(lanesIn(packed([], same, 2, 100))).toBe(0));

describe('Property: of any items', () => {
  const seeds = Array.from({ length: 200 }, (_, index) => index + 1);
  const itemsOf = (seed: number): Extent[] => {
    const random = randomFrom(seed);
    return Array.from({ length: Math.floor(random() * 60) }, () => {
      const left = Math.floor(random() * 1000);
      return { left, right: left + Math.floor(random() * random() * 400) };
    });
  };
  /** How many lie over one another at the worst place; no packing needs fewer lanes. */
  const depth = (items: Extent[], gap: number) =>
    Math.max(
      0,
      ...items.map((one) => items.filter((other) => other.left <= one.left && one.left < other.right + gap).length),
    );

  test.each(seeds)('none covers another, all are there, and no lane is wasted (seed %i)', (seed) => {
    const items = itemsOf(seed);
    const places = packed(items, same, 3, 1400);
    expect(places.map(({ item }) => item).toSorted(byEdges)).toEqual(items.toSorted(byEdges));
    for (const [index, a] of places.entries())
      for (const b of places.slice(index + 1))
        if (a.lane === b.lane) expect(a.item.right + 3 <= b.item.left).toBe(true);
    expect(lanesIn(places)).toBe(depth(items, 3));
  });
});

const byEdges = (a: Extent, b: Extent) => a.left - b.left || a.right - b.right;
