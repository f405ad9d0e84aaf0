// One machine's row of the Horizon as places: each task's mark and whisker in a lane, and how many lie beyond.

import type { TaskState } from '../../wire/contract';
import { blocksOf, standsOf } from './blocks';
import type { Block, PlannedStop, Stand } from './blocks';
import { middleOfDay } from './axis';
import type { Axis } from './axis';
import { bySoonest } from './choose';
import type { DatedMachine, DatedTask } from './choose';
import { lanesIn, packed } from './lanes';
import type { Taken } from './lanes';

/** How large marks are: for a pointer, or for a finger. Px. */
export interface Size {
  lane: number;
  radius: number;
  /** Columns of marks before today. */
  columns: number;
}
export const FINE: Size = { lane: 15, radius: 4.5, columns: 4 };
export const COARSE: Size = { lane: 30, radius: 8, columns: 2 };

export const GAP = 4;
const PAD = 5;
const ROW_MIN = 46;
/** Titles are 11 px high; a letter is about half as wide, with a little to spare. */
const LETTER_PX = 6;

/** Width of what stands before today. */
export const beforeWidth = (size: Size): number => size.columns * (2 * size.radius + GAP) + GAP + 2;

export interface Mark {
  dated: DatedTask;
  state: TaskState;
  x: number;
  y: number;
  /** The 80 % range; null for an exact date and for what is due now. */
  whisker: { from: number; to: number; isOpen: boolean } | null;
  /** Where its title is written; null where there is no room. */
  titleAt: number | null;
}

export interface Row {
  machine: DatedMachine['machine'];
  /** From the left to the right; without those that a block holds. */
  marks: Mark[];
  blocks: Block[];
  /** What the keyboard reaches, from the left to the right. */
  stands: Stand[];
  height: number;
  later: number;
  never: number;
  refused: number;
}

type Place = Omit<Mark, 'y' | 'titleAt'> & { left: number; right: number };

function placeOf(dated: DatedTask, axis: Axis, size: Size): Place {
  // A mark is wider than a day can be: at the edges it stays whole.
  const x = Math.min(
    axis.width - size.radius,
    Math.max(axis.before + size.radius + 2, middleOfDay(axis, dated.median)),
  );
  const from = dated.first === null ? x : Math.max(axis.before, middleOfDay(axis, dated.first));
  const wanted = dated.last === null ? Infinity : middleOfDay(axis, dated.last);
  const isOpen = wanted > axis.width;
  const to = Math.min(axis.width, wanted);
  const whisker = dated.first === dated.last ? null : { from, to, isOpen };
  const left = Math.min(whisker ? from : x, x - size.radius);
  return { dated, state: dated.task.state, x, whisker, left, right: Math.max(whisker ? to : x, x + size.radius) };
}

/** What is overdue and due stands before today, in columns. */
function marksNow(tasks: DatedTask[], size: Size, yOf: (lane: number) => number): Mark[] {
  const step = 2 * size.radius + GAP;
  return tasks.map((dated, index) => ({
    dated,
    state: dated.task.state,
    x: GAP + size.radius + (index % size.columns) * step,
    y: yOf(Math.floor(index / size.columns)),
    whisker: null,
    titleAt: null,
  }));
}

function marksAhead(
  tasks: DatedTask[],
  axis: Axis,
  size: Size,
  yOf: (lane: number) => number,
  taken: readonly Taken[],
) {
  const places = packed(
    tasks.map((dated) => placeOf(dated, axis, size)),
    (place) => place,
    GAP,
    axis.width,
    taken,
  );
  const marks = places.map(({ item, lane, room }): Mark => {
    const { dated, state, x, whisker, right } = item;
    const isRoomy = dated.task.title.length * LETTER_PX + 2 * GAP < room;
    return { dated, state, x, whisker, y: yOf(lane), titleAt: isRoomy ? right + GAP : null };
  });
  return { marks, lanes: lanesIn(places) };
}

const heightOf = (lanes: number, size: Size) => Math.max(ROW_MIN, lanes * size.lane + 2 * PAD);

/** @param stops agreed and proposed ones of the machine */
export function rowOf(
  { machine, tasks }: DatedMachine,
  axis: Axis,
  size: Size,
  stops: readonly PlannedStop[] = [],
): Row {
  const end = axis.today + axis.days;
  const yOf = (lane: number) => PAD + size.lane * (lane + 0.5);
  const { blocks, taken, held } = blocksOf(stops, tasks, axis, size, yOf);
  const isLoose = ({ task }: DatedTask) => !held.has(task.task);
  const now = tasks.filter((one) => one.place === 'now' && isLoose(one)).sort(bySoonest);
  const within = tasks.filter(({ place, median }) => place === 'dated' && median < end);
  const ahead = marksAhead(within.filter(isLoose), axis, size, yOf, taken);
  const count = (wanted: DatedTask['place']) => tasks.filter(({ place }) => place === wanted).length;
  const marks = [...marksNow(now, size, yOf), ...ahead.marks.sort((a, b) => a.x - b.x || a.y - b.y)];
  return {
    machine,
    marks,
    blocks,
    stands: standsOf(marks, blocks),
    height: heightOf(Math.max(ahead.lanes, lanesIn(taken), Math.ceil(now.length / size.columns)), size),
    later: count('dated') - within.length,
    never: count('never'),
    refused: count('refused'),
  };
}

/** The block at a place of the row; an agreed one before one that is only proposed. */
export function blockAt({ blocks }: Row, x: number, y: number): Block | undefined {
  const isIn = (one: Block) => Math.abs(one.x - x) <= one.width / 2 && Math.abs(one.y - y) <= one.height / 2;
  return blocks.find((one) => one.planned.stop !== null && isIn(one)) ?? blocks.find(isIn);
}

/** The mark at a place of the row, or the one whose whisker passes there; undefined where nothing is near. */
export function markAt(row: Row, x: number, y: number, reach: number): Mark | undefined {
  const away = (mark: Mark) => Math.hypot(mark.x - x, mark.y - y);
  const onWhisker = ({ whisker, y: at }: Mark) =>
    whisker !== null && x >= whisker.from && x <= whisker.to && Math.abs(at - y) <= reach / 2;
  const nearest = row.marks.reduce<Mark | undefined>(
    (best, mark) => (away(mark) <= reach && (best === undefined || away(mark) < away(best)) ? mark : best),
    undefined,
  );
  return nearest ?? row.marks.find(onWhisker);
}
