// The pages of the logbook that were turned so far, for one choice of filters.

import { client } from '../../wire/client';
import type { Entry } from '../../wire/contract';
import { live } from '../../wire/live.svelte';

type Query = Record<string, string>;

export class Book {
  entries = $state.raw<Entry[]>([]);
  /** There are older ones that fit. */
  more = $state(false);
  /** How many entries wait for the lead, whatever is chosen; null: not known yet. */
  strays = $state<number | null>(null);
  isLoading = $state(false);
  trouble = $state('');
  private loadedAtChange = $state(-1);
  private query: Query = {};

  /** Was something entered since the newest page was loaded? */
  readonly isStale = $derived(this.loadedAtChange >= 0 && live.changes > this.loadedAtChange);

  /** The newest entries that fit. What was turned for another choice is put away when these are there. */
  async load(query: Query = this.query): Promise<void> {
    this.query = query;
    const change = live.changes;
    const page = await this.ask(query);
    if (page === null) return;
    this.entries = page.entries;
    this.loadedAtChange = change;
  }

  /** The next page behind the last entry. */
  async older(): Promise<void> {
    const last = this.entries.at(-1);
    if (last === undefined || this.isLoading) return;
    const page = await this.ask({ ...this.query, before: String(last.ordinal) });
    if (page !== null) this.entries = [...this.entries, ...page.entries];
  }

  /** An answer, or null when there was none or when another choice was made meanwhile. */
  private async ask(query: Query) {
    const asked = this.query;
    this.isLoading = true;
    this.trouble = '';
    try {
      const page = await client.logbook(query);
      if (asked !== this.query) return null;
      this.more = page.more;
      this.strays = page.strays;
      return page;
    } catch (error) {
      if (asked === this.query) this.trouble = error instanceof Error ? error.message : String(error);
      return null;
    } finally {
      if (asked === this.query) this.isLoading = false;
    }
  }
}
