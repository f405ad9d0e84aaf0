// What was counted on this walk along the shelves, on this device; it outlives the page, since each label opens another.

import { recall, remember } from '../../parts/remembered';

const SLOT = 'counted';
/** A walk is over after so long. */
const WALK_MS = 12 * 3_600_000;

export interface Counted {
  /** Of the entry. */
  id: string;
  number: string;
  title: string;
  /** "3 pieces" */
  amount: string;
  atMs: number;
}

function kept(): Counted[] {
  try {
    const read = JSON.parse(recall(SLOT)) as Counted[];
    return read.filter(({ atMs }) => Date.now() - atMs < WALK_MS);
  } catch {
    return [];
  }
}

class CountedWalk {
  /** The latest first. */
  list = $state.raw<Counted[]>(kept());

  add(one: Counted): void {
    this.list = [one, ...this.list];
    remember(SLOT, JSON.stringify(this.list));
  }

  /** What the server refused was not counted. @param ids of entries */
  drop(ids: readonly string[]): void {
    if (!this.list.some(({ id }) => ids.includes(id))) return;
    this.list = this.list.filter(({ id }) => !ids.includes(id));
    remember(SLOT, JSON.stringify(this.list));
  }

  end(): void {
    this.list = [];
    remember(SLOT, '');
  }
}

export const counted = new CountedWalk();
