// A row's marks as a few paths: all whiskers one path, all marks of one state one path. The shapes are those of
// parts/StateShape.svelte.

import type { TaskState } from '../../wire/contract';
import type { Shade } from './axis';
import type { Block } from './blocks';
import type { Mark } from './row';

const TICK = 3.5;
const n = (value: number) => value.toFixed(1);

function whisker({ whisker: range, y }: Mark): string {
  if (range === null) return '';
  const line = `M${n(range.from)} ${n(y)}H${n(range.to)}M${n(range.from)} ${n(y - TICK)}v${2 * TICK}`;
  // An arrow where it goes on beyond what is seen.
  const end = range.isOpen
    ? `M${n(range.to - 5)} ${n(y - TICK)}l5 ${TICK} -5 ${TICK}`
    : `M${n(range.to)} ${n(y - TICK)}v${2 * TICK}`;
  return line + end;
}

const circle = (x: number, y: number, r: number) =>
  `M${n(x - r)} ${n(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
const half = (x: number, y: number, r: number) => `M${n(x)} ${n(y - r)}a${r} ${r} 0 0 1 0 ${2 * r}z`;
const diamond = (x: number, y: number, r: number) => `M${n(x)} ${n(y - r)}l${r} ${r} ${-r} ${r} ${-r} ${-r}z`;

/** Blocks as boxes. @param more wider on every side, px */
export const blocksPath = (blocks: readonly Block[], more = 0): string =>
  blocks
    .map(({ x, y, width, height }) => {
      const [w, h] = [width + 2 * more, height + 2 * more];
      return `M${n(x - w / 2)} ${n(y - h / 2)}h${n(w)}v${n(h)}h${n(-w)}z`;
    })
    .join('');

export interface RowPaths {
  whiskers: string;
  /** The outlines of what is in hand and coming. */
  circles: string;
  /** The right half of what is coming. */
  halves: string;
  due: string;
  overdue: string;
}

export function pathsOf(marks: readonly Mark[], radius: number): RowPaths {
  const of = (shape: typeof circle, r: number, ...states: TaskState[]) =>
    marks
      .filter(({ state }) => states.includes(state))
      .map(({ x, y }) => shape(x, y, r))
      .join('');
  return {
    whiskers: marks.map(whisker).join(''),
    circles: of(circle, radius, 'in hand', 'coming'),
    halves: of(half, radius, 'coming'),
    due: of(diamond, radius + 0.5, 'due'),
    overdue: of(diamond, radius + 0.5, 'overdue'),
  };
}

/** Shaded days over any height; what is too high is cut off by the drawing's edge. */
export const shadePath = (shades: readonly Shade[]): string =>
  shades.map(({ x, width }) => `M${n(x)} 0h${n(width)}v9999h${n(-width)}z`).join('');
export const linesPath = (xs: readonly number[]): string => xs.map((x) => `M${n(x)} 0v9999`).join('');
