import type { Entry } from '../../wire/contract';

/** From when on an entry counts as late: below, the way to the server took the time. */
const LATE_MS = 60_000;

/** How long after it happened the server heard of an entry, in ms; 0 where that was within a minute. */
export function lateMs(entry: Pick<Entry, 'at' | 'happened_at'>): number {
  const late = Date.parse(entry.at) - Date.parse(entry.happened_at);
  return late >= LATE_MS ? late : 0;
}
