// Stops on the Horizon as blocks: an agreed one holds the marks of its tasks, one that is only proposed is an outline with
// their number. Lengths in px. A block is never narrower than what it holds, and never stands beyond the weeks shown.

import { dayNumber } from '../../parts/day_numbers';
import type { Difference, Stop } from '../../wire/contract';
import { middleOfDay } from './axis';
import type { Axis } from './axis';
import type { DatedTask } from './choose';
import { lanesFrom } from './lanes';
import type { Taken } from './lanes';
import type { Mark, Size } from './row';

export interface PlannedStop {
  /** Of the stop or of the difference. */
  id: string;
  machine: string;
  /** Day number. */
  day: number;
  tasks: string[];
  /** null: it is only proposed. */
  stop: Stop | null;
}

export interface Block {
  planned: PlannedStop;
  /** Its middle. */
  x: number;
  y: number;
  width: number;
  height: number;
  marks: Mark[];
}

/** What the keyboard can reach: a mark or an agreed stop. */
export interface Stand {
  x: number;
  /** Of the task or the stop. */
  key: string;
  mark?: Mark;
  block?: Block;
}

const GAP = 4;
const PAD = 4;
const COLUMNS_MAX = 3;
const PROPOSED_WIDTH = 22;

export const agreedStop = (stop: Stop): PlannedStop => ({
  id: stop.id,
  machine: stop.machine,
  day: dayNumber(stop.on),
  tasks: stop.tasks.map(({ task }) => task),
  stop,
});

/** A difference that is not accepted and has a day; null where a stop is only dropped. */
export function proposedStop({ key, machine, on, tasks, accepted }: Difference): PlannedStop | null {
  if (accepted || on === undefined) return null;
  return { id: key, machine, day: dayNumber(on), tasks, stop: null };
}

/** Agreed stops, and those that differences propose, under their machines' keys. */
export function stopsByMachine(
  agreed: readonly Stop[],
  differences: readonly Difference[],
): Map<string, PlannedStop[]> {
  const proposed = differences.flatMap((one) => proposedStop(one) ?? []);
  const byMachine = new Map<string, PlannedStop[]>();
  for (const one of [...agreed.map(agreedStop), ...proposed])
    byMachine.set(one.machine, [...(byMachine.get(one.machine) ?? []), one]);
  return byMachine;
}

interface Shape {
  columns: number;
  width: number;
  height: number;
}

/** About square, one column on a narrow day. */
function shapeOf({ stop, tasks }: PlannedStop, axis: Axis, size: Size): Shape {
  const step = 2 * size.radius + 4;
  if (stop === null) return { columns: 0, width: Math.max(PROPOSED_WIDTH, axis.dayWidth), height: size.lane + 2 };
  const columns = Math.min(COLUMNS_MAX, Math.max(1, Math.ceil(Math.sqrt(tasks.length))));
  const rows = Math.ceil(tasks.length / columns);
  return { columns, width: Math.max(axis.dayWidth, columns * step + PAD), height: rows * step + PAD };
}

function marksIn(tasks: readonly DatedTask[], block: Omit<Block, 'marks'>, columns: number, size: Size): Mark[] {
  const step = 2 * size.radius + 4;
  const left = block.x - ((Math.min(columns, tasks.length) - 1) * step) / 2;
  const top = block.y - block.height / 2 + PAD / 2 + step / 2;
  return tasks.map((dated, index) => ({
    dated,
    state: dated.task.state,
    x: left + (index % columns) * step,
    y: top + Math.floor(index / columns) * step,
    whisker: null,
    titleAt: null,
  }));
}

export interface PlacedBlocks {
  blocks: Block[];
  /** The lanes on which they stand. */
  taken: Taken[];
  /** Keys of the tasks that an agreed block holds. */
  held: Set<string>;
}

export function blocksOf(
  stops: readonly PlannedStop[],
  tasks: readonly DatedTask[],
  axis: Axis,
  size: Size,
  yOf: (lane: number) => number,
): PlacedBlocks {
  const taken: Taken[] = [];
  const seen = stops.filter(({ day }) => day < axis.today + axis.days);
  const blocks = seen.map((planned): Block => {
    const { columns, width, height } = shapeOf(planned, axis, size);
    const wanted = middleOfDay(axis, Math.max(axis.today, planned.day));
    const x = Math.min(axis.width - width / 2, Math.max(axis.before + width / 2 + 1, wanted));
    const lanes = Math.ceil((height + 2) / size.lane);
    const extent = { left: x - width / 2, right: x + width / 2 };
    const first = lanesFrom(taken, lanes, extent, GAP);
    for (let lane = 0; lane < lanes; lane += 1) taken.push({ ...extent, lane: first + lane });
    const y = (yOf(first) + yOf(first + lanes - 1)) / 2;
    const block = { planned, x, y, width, height };
    const held = tasks.filter(({ task }) => planned.stop !== null && planned.tasks.includes(task.task));
    return { ...block, marks: marksIn(held, block, Math.max(1, columns), size) };
  });
  return { blocks, taken, held: new Set(blocks.flatMap(({ marks }) => marks.map(({ dated }) => dated.task.task))) };
}

export function standsOf(marks: readonly Mark[], blocks: readonly Block[]): Stand[] {
  const ofMarks = marks.map((mark): Stand => ({ x: mark.x, key: mark.dated.task.task, mark }));
  const agreed = blocks.filter(({ planned }) => planned.stop !== null);
  const ofBlocks = agreed.map((block): Stand => ({ x: block.x, key: block.planned.id, block }));
  return [...ofMarks, ...ofBlocks].sort((a, b) => a.x - b.x);
}
