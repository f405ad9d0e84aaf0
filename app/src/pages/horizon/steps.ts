// Where the arrow keys lead on the Horizon: left and right along what stands in a machine's row, its marks and its agreed
// stops; up and down to what stands nearest in another machine's; Home and End to a row's ends, Page Up and Down by ten
// machines.

import type { Row } from './row';

export interface Place {
  row: number;
  /** Among the row's stands. */
  at: number;
}

const PAGE_ROWS = 10;

function nearestIn(row: Row, x: number): number {
  const away = (index: number) => Math.abs((row.stands[index]?.x ?? Infinity) - x);
  return row.stands.reduce((best, _, index) => (away(index) < away(best) ? index : best), 0);
}

/** So many rows where something stands up or down, or as far as there are some. */
function rowsOn(rows: readonly Row[], place: Place, count: number): Place {
  const x = rows[place.row]?.stands[place.at]?.x ?? 0;
  const ways = rows.map((_, index) => index).filter((index) => (rows[index]?.stands.length ?? 0) > 0);
  const way = Math.min(ways.length - 1, Math.max(0, ways.indexOf(place.row) + count));
  const row = ways[way] ?? place.row;
  const target = rows[row];
  return row === place.row || target === undefined ? place : { row, at: nearestIn(target, x) };
}

/** Where a key leads; undefined for a key that leads nowhere. */
export function stepTo(rows: readonly Row[], place: Place, key: string): Place | undefined {
  const last = (rows[place.row]?.stands.length ?? 1) - 1;
  const along = (at: number): Place => ({ row: place.row, at: Math.min(last, Math.max(0, at)) });
  switch (key) {
    case 'ArrowLeft':
      return along(place.at - 1);
    case 'ArrowRight':
      return along(place.at + 1);
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

/** Where a task or stop stands; the first stand of all where it stands nowhere. */
export function placeOf(rows: readonly Row[], machine: string, key: string): Place {
  const row = rows.findIndex((one) => one.machine.machine === machine);
  const at = rows[row]?.stands.findIndex((stand) => stand.key === key) ?? -1;
  if (at >= 0) return { row, at };
  const first = rows.findIndex((one) => one.stands.length > 0);
  return { row: Math.max(0, first), at: 0 };
}
