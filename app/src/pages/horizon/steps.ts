// Where the arrow keys lead on the Horizon: left and right along a machine's marks, up and down to the mark of another
// machine that stands nearest, Home and End to a row's ends, Page Up and Down by ten machines.

import type { Row } from './row';

export interface Place {
  row: number;
  mark: number;
}

const PAGE_ROWS = 10;

function nearestMark(row: Row, x: number): number {
  const away = (index: number) => Math.abs((row.marks[index]?.x ?? Infinity) - x);
  return row.marks.reduce((best, _, index) => (away(index) < away(best) ? index : best), 0);
}

/** So many rows with marks up or down, or as far as there are some. */
function rowsOn(rows: readonly Row[], place: Place, count: number): Place {
  const x = rows[place.row]?.marks[place.mark]?.x ?? 0;
  const ways = rows.map((_, index) => index).filter((index) => (rows[index]?.marks.length ?? 0) > 0);
  const at = Math.min(ways.length - 1, Math.max(0, ways.indexOf(place.row) + count));
  const [row, target] = [ways[at] ?? place.row, rows[ways[at] ?? place.row]];
  return row === place.row || target === undefined ? place : { row, mark: nearestMark(target, x) };
}

/** Where a key leads; undefined for a key that leads nowhere. */
export function stepTo(rows: readonly Row[], place: Place, key: string): Place | undefined {
  const last = (rows[place.row]?.marks.length ?? 1) - 1;
  const along = (mark: number): Place => ({ row: place.row, mark: Math.min(last, Math.max(0, mark)) });
  switch (key) {
    case 'ArrowLeft':
      return along(place.mark - 1);
    case 'ArrowRight':
      return along(place.mark + 1);
    case 'Home':
      return along(0);
    case 'End':
      return along(last);
    case 'ArrowUp':
      return rowsOn(rows, place, -1);
    case 'ArrowDown':
      return rowsOn(rows, place, 1);
    case 'PageUp':
      return rowsOn(rows, place, -PAGE_ROWS);
    case 'PageDown':
      return rowsOn(rows, place, PAGE_ROWS);
    default:
      return undefined;
  }
}

/** Where a task stands; the first mark of all where it stands nowhere. */
export function placeOf(rows: readonly Row[], machine: string, task: string): Place {
  const row = rows.findIndex((one) => one.machine.machine === machine);
  const mark = rows[row]?.marks.findIndex(({ dated }) => dated.task.task === task) ?? -1;
  if (mark >= 0) return { row, mark };
  return {
    row: Math.max(
      0,
      rows.findIndex((one) => one.marks.length > 0),
    ),
    mark: 0,
  };
}
