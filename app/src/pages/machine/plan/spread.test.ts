import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'smol-toml';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../wire/contract';
import { spread, spreadFitting } from './spread';
import type { Ground, Place, Spot } from './spread';

const LIBRARY = new URL('../../../../../library/', import.meta.url);
const sets = readdirSync(LIBRARY)
  .filter((name) => name.endsWith('.toml'))
  .map((name) => parse(readFileSync(new URL(name, LIBRARY), 'utf8')) as unknown as { kind: string; point: Point[] });

const ground: Ground = { width: 300, height: 200, size: 44, gap: 8 };

/** The least that is free between any two buttons, in the better of the two directions. */
function leastGap(places: readonly Place[], size: number): number {
  const gaps = places.flatMap((a, index) =>
    places.slice(index + 1).map((b) => Math.max(Math.abs(a.x - b.x), Math.abs(a.y - b.y)) - size),
  );
  return Math.min(...gaps);
}

function expectInside(places: readonly Place[], { width, height, size }: Ground) {
  for (const { x, y } of places) {
    expect(Math.min(x, width - x)).toBeGreaterThanOrEqual(size / 2);
    expect(Math.min(y, height - y)).toBeGreaterThanOrEqual(size / 2);
  }
}

test('points with room around them stay on their spots', () => {
  const spots: Spot[] = [
    { number: 1, x: 50, y: 50 },
    { number: 2, x: 110, y: 50 },
  ];
  expect(spread(spots, ground)?.map(({ x, y }) => [x, y])).toEqual([
    [50, 50],
    [110, 50],
  ]);
});

test('two that are too near move apart equally, the shorter way', () => {
  const [a, b] =
    spread(
      [
        { number: 1, x: 100, y: 100 },
        { number: 2, x: 140, y: 110 },
      ],
      ground,
    ) ?? [];
  expect([a?.y, b?.y]).toEqual([100, 110]);
  expect((b?.x ?? 0) - (a?.x ?? 0)).toBeCloseTo(52, 0);
  expect((a?.x ?? 0) + (b?.x ?? 0)).toBeCloseTo(240);
});

test('two on one spot come apart, and one at the edge comes in', () => {
  const spots = [1, 2].map((number) => ({ number, x: 0, y: 0 }));
  const places = spread(spots, ground) ?? [];
  expect(leastGap(places, 44)).toBeGreaterThanOrEqual(8 - 1e-6);
  expectInside(places, ground);
});

test('the order in which points come changes nothing', () => {
  const spots = [40, 60, 80, 95].map((x, index) => ({ number: index + 1, x, y: 100 + index }));
  expect(spread(spots.toReversed(), ground)).toEqual(spread(spots, ground));
});

test('a full row gives way to the back and the front', () => {
  const spots = Array.from({ length: 8 }, (_, index) => ({ number: index + 1, x: 20 + index * 37, y: 100 }));
  const places = spread(spots, ground) ?? [];
  expect(places.length).toBe(8);
  expect(leastGap(places, 44)).toBeGreaterThanOrEqual(8 - 1e-6);
});

test('too many for the plan: the next smaller size, and at the end the spots themselves', () => {
  const spots = Array.from({ length: 12 }, (_, index) => ({ number: index + 1, x: 20 + index * 20, y: 100 }));
  const [large, small] = [
    { size: 80, gap: 12 },
    { size: 44, gap: 4 },
  ];
  expect(spread(spots, { ...ground, ...large })).toBeNull();
  expect(spreadFitting(spots, ground, [large, small]).size).toBe(44);
  const overlapping = spreadFitting(spots, { width: 90, height: 90 }, [large, small]);
  expect(overlapping.places.map(({ x, y }) => ({ x, y }))).toEqual(spots.map(({ x, y }) => ({ x, y })));
});

describe.each(sets)('the points of a $kind', ({ point }) => {
  test.each([
    ['a desk', { width: 576, height: 576, size: 44, gap: 8 }],
    ['a phone of 390 px', { width: 366, height: 420, size: 56, gap: 12 }],
    ['a phone of 320 px', { width: 296, height: 400, size: 44, gap: 8 }],
  ])('have room on %s', (_, on) => {
    const top = (on.height - on.width) / 2;
    const spots = point.map(({ number, x, y }) => ({ number, x: x * on.width, y: top + y * on.width }));
    const places = spread(spots, on) ?? [];
    expect(places.length).toBe(point.length);
    expect(leastGap(places, on.size)).toBeGreaterThanOrEqual(on.gap - 1e-6);
    expectInside(places, on);
  });
});
