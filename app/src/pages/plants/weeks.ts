// What falls due in which week in every plant, as one table: a plant a row, the same thirteen weeks across.

import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { GroupPlant, GroupWeek } from '../../wire/contract';
import { byTitle } from './summary';

const WEEKS = 13;
const WEEK_DAYS = 7;
/** Shades from 1, the least, to this. */
const SHADES = 4;

export interface Week {
  tasks: number;
  hours: number;
}

export interface WeekRow {
  plant: GroupPlant;
  /** As many as `weeks` of the table; null: nothing was told of the plant yet. */
  weeks: Week[] | null;
}

export interface WeekTable {
  /** Mondays, as local dates. */
  mondays: string[];
  rows: WeekRow[];
  totals: Week[];
  /** The most hours that a plant has in a week. */
  hoursMax: number;
}

const none = (): Week[] => Array.from({ length: WEEKS }, () => ({ tasks: 0, hours: 0 }));

/** What was due in a week that is over is due in the first of the table; what lies beyond its last is left out. */
function inColumns(weeks: readonly GroupWeek[], first: number): Week[] {
  const columns = none();
  for (const { week_on, tasks, minutes } of weeks) {
    const column = columns[Math.max(0, Math.round((dayNumber(week_on) - first) / WEEK_DAYS))];
    if (column === undefined) continue;
    column.tasks += tasks;
    column.hours += minutes / 60;
  }
  return columns;
}

/**
 * In the order of their titles. The table begins with the latest week with which a plant's begin: plants of other zones,
 * and those of which nothing was told for days, may begin a week before.
 */
export function weekTable(plants: readonly GroupPlant[]): WeekTable | null {
  const begins = plants.flatMap(({ line }) => line?.weeks[0]?.week_on ?? []).map(dayNumber);
  if (begins.length === 0) return null;
  const first = Math.max(...begins);
  const rows = [...plants]
    .sort((a, b) => byTitle(a.title, b.title))
    .map((plant) => ({ plant, weeks: plant.line === null ? null : inColumns(plant.line.weeks, first) }));
  const totals = none();
  let hoursMax = 0;
  for (const { weeks } of rows) {
    weeks?.forEach(({ tasks, hours }, index) => {
      const total = totals[index];
      if (total === undefined) return;
      total.tasks += tasks;
      total.hours += hours;
      hoursMax = Math.max(hoursMax, hours);
    });
  }
  return { mondays: totals.map((_, index) => dateOfNumber(first + index * WEEK_DAYS)), rows, totals, hoursMax };
}

/** How dark a week is drawn: 0 for no hours, 1 to 4 in equal parts of the most hours that a week has. */
export function shadeOf(hours: number, hoursMax: number): number {
  return hours <= 0 || hoursMax <= 0 ? 0 : Math.min(SHADES, Math.ceil((hours / hoursMax) * SHADES));
}

export interface Place {
  row: number;
  /** 0: the plant itself; then the weeks. */
  column: number;
}

const STEPS: Readonly<Record<string, readonly [rows: number, columns: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  PageUp: [-10, 0],
  PageDown: [10, 0],
  Home: [0, -WEEKS],
  End: [0, WEEKS],
};

/** Where a key leads in a table of so many rows; undefined for a key that leads nowhere. */
export function stepTo({ row, column }: Place, key: string, rows: number): Place | undefined {
  const step = STEPS[key];
  if (step === undefined) return undefined;
  const within = (value: number, last: number) => Math.min(Math.max(0, last), Math.max(0, value));
  return { row: within(row + step[0], rows - 1), column: within(column + step[1], WEEKS) };
}
