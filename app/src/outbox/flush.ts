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

/** unreachable: nobody knows whether it arrived; not signed in: the server does not know who asks, or not by as many factors
 * as it demands; of others: whoever entered what is left has to sign in. */
export type Delay = 'unreachable' | 'not signed in' | 'of others';

export type Outcome =
  | { is: 'taken'; answer: unknown }
  | { is: 'refused'; refusal: Refusal }
  /** The server is there and failed at just this one. */
  | { is: 'stumbled' }
  | { is: 'delayed'; by: Delay };

export type Send = (row: Row) => Promise<Outcome>;

/** What a refusal means for an entry. */
export function outcomeOf({ status, detail, saying }: Refusal): Outcome {
  if (status === 401) return { is: 'delayed', by: 'not signed in' };
  if (status === 403 && saying?.code === 'second-factor-needed') return { is: 'delayed', by: 'not signed in' };
  // Somebody else has signed in meanwhile, in another tab for example.
  if (status === 403 && saying?.code === 'not-you') return { is: 'delayed', by: 'of others' };
  if (status === 500) return { is: 'stumbled' };
  if (status >= 500 || status === 408 || status === 429) return { is: 'delayed', by: 'unreachable' };
  return { is: 'refused', refusal: { status, detail, ...(saying ? { saying } : {}) } };
}

const namesOneOf = (row: Entered, ids: ReadonlySet<string>) => photosOf(row).some((photo) => ids.has(photo.id));

function delayOf(own: readonly Row[], waiting: readonly Row[]): Delay | null {
  if (own.length > 0) return 'unreachable';
  return waiting.length > 0 ? 'of others' : null;
}

/** Sends what was entered by the person whom `name` gives, until nothing of it waits or something must wait; gives what is
 * waited for, or null. What others entered stays until they sign in: the server takes it in their name from them only. */
export async function flush(
  outbox: Waiting,
  name: () => string,
  send: Send,
  heard: (row: Row, outcome: Outcome) => void,
): Promise<Delay | null> {
  const stumbled = new Set<string>();
  for (;;) {
    const waiting = await outbox.waiting();
    const own = waiting.filter((one) => one.body.by === name());
    const row = own.find((one) => !stumbled.has(one.id) && !namesOneOf(one, stumbled));
    if (row === undefined) return delayOf(own, waiting);
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
