// Sending what waits: in the order in which it was entered, one at a time. What the server refuses is put aside with its
// reason and the next one goes; what gets no answer waits, and everything behind it too. An entry at which a server
// that is otherwise well stumbles (a 5xx of its own) is stepped over for this time, with whatever names it, so that one
// bad entry does not hold up the rest for ever.

import type { Entered, Refusal, Row } from './entered';
import { photosOf } from './entered';

/** What the flush asks of the outbox on the device. */
export interface Waiting {
  waiting(): Promise<Row[]>;
  sent(row: Row, atMs: number): Promise<void>;
  refused(row: Row, refusal: Refusal): Promise<void>;
}

/** unreachable: nobody knows whether it arrived; not joined: this device must be let in first. */
export type Delay = 'unreachable' | 'not joined';

export type Outcome =
  | { is: 'taken'; answer: unknown }
  | { is: 'refused'; refusal: Refusal }
  /** The server is there and failed at just this one. */
  | { is: 'stumbled' }
  | { is: 'delayed'; by: Delay };

export type Send = (row: Row) => Promise<Outcome>;

/** What a refusal means for an entry. */
export function outcomeOf({ status, detail, saying }: Refusal): Outcome {
  if (status === 401) return { is: 'delayed', by: 'not joined' };
  if (status === 500) return { is: 'stumbled' };
  if (status >= 500 || status === 408 || status === 429) return { is: 'delayed', by: 'unreachable' };
  return { is: 'refused', refusal: { status, detail, ...(saying ? { saying } : {}) } };
}

const namesOneOf = (row: Entered, ids: ReadonlySet<string>) => photosOf(row).some((photo) => ids.has(photo.id));

/** Sends until nothing waits or something must wait; gives what it waits for, or null. */
export async function flush(
  outbox: Waiting,
  send: Send,
  heard: (row: Row, outcome: Outcome) => void,
): Promise<Delay | null> {
  const stumbled = new Set<string>();
  for (;;) {
    const waiting = await outbox.waiting();
    const row = waiting.find((one) => !stumbled.has(one.id) && !namesOneOf(one, stumbled));
    if (row === undefined) return waiting.length > 0 ? 'unreachable' : null;
    const outcome = await send(row);
    if (outcome.is === 'taken') await outbox.sent(row, Date.now());
    if (outcome.is === 'refused') await outbox.refused(row, outcome.refusal);
    if (outcome.is === 'stumbled') stumbled.add(row.id);
    heard(row, outcome);
    if (outcome.is === 'delayed') return outcome.by;
  }
}

const PAUSES_MS = [2_000, 4_000, 8_000, 15_000, 30_000, 60_000];

/** How long to wait before the next try, after so many in vain. */
export function pauseAfter(vain: number): number {
  return PAUSES_MS[Math.min(vain, PAUSES_MS.length) - 1] ?? PAUSES_MS[0] ?? 0;
}
