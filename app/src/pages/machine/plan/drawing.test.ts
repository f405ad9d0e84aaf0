import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'smol-toml';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../../wire/contract';
import { drawingOf } from './drawing';
import type { Shape } from './drawing';

const LIBRARY = new URL('../../../../../library/', import.meta.url);
const sets = readdirSync(LIBRARY)
  .filter((name) => name.endsWith('.toml'))
  .map((name) => parse(readFileSync(new URL(name, LIBRARY), 'utf8')) as unknown as { kind: string; point: Point[] });

/** Is the point, in hundredths of the plan, on the shape? */
function holds(shape: Shape, x: number, y: number): boolean {
  if (shape.form === 'disc') return Math.hypot(x - shape.x, y - shape.y) <= shape.radius;
  if (shape.form === 'line') return false;
  return x >= shape.x && x <= shape.x + shape.width && y >= shape.y && y <= shape.y + shape.height;
}

function reach(shape: Shape): number[] {
  if (shape.form === 'line') return [];
  if (shape.form === 'box') return [shape.x, shape.y, shape.x + shape.width, shape.y + shape.height];
  return [shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius];
}

test('there is a starting set for each of the seven kinds', () => expect(sets.length).toBe(7));

describe.each(sets)('the plan of a $kind', ({ kind, point }) => {
  const drawing = drawingOf(kind);

  test.each(point)('shows $assembly where point $number is', ({ assembly, x, y }) => {
    const shapes = drawing.filter((shape) => shape.of === assembly);
    expect(shapes.some((shape) => holds(shape, x * 100, y * 100))).toBe(true);
  });

  test('stays on its sheet', () => {
    for (const shape of drawing)
      for (const edge of reach(shape)) {
        expect(edge).toBeGreaterThanOrEqual(0);
        expect(edge).toBeLessThanOrEqual(100);
      }
  });
});

test('a kind that has no drawing has a bare enclosure', () => {
  expect(drawingOf('no such kind').map((shape) => shape.look)).toEqual(['shell']);
});
