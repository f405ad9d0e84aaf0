// What the stores keep: fresh while the server can be reached; without a connection as this device kept it, with the
// weeks ahead left out, since those are for the desk.

import { keptStore } from '../../kept/store';
import { client } from '../../wire/client';
import type { Stores, StoresPart } from '../../wire/contract';

const KEY = 'stores';

const withoutWeeks = (stores: Stores): Stores => ({
  ...stores,
  parts: stores.parts.map((part) => ({ ...part, weeks: [] })),
});

export class StoresKnown {
  stores = $state.raw<Stores | null>(null);
  /** From when they are (device's clock, ms) where the server could not be asked; 0: fresh. */
  keptFromMs = $state(0);
  /** Why there are none, in words. */
  trouble = $state('');

  async load(): Promise<void> {
    try {
      const stores = await client.stores();
      [this.stores, this.keptFromMs, this.trouble] = [stores, 0, ''];
      void keptStore.put([{ key: KEY, value: withoutWeeks(stores), fromMs: Date.now() }]);
    } catch (error) {
      const kept = this.stores === null ? await keptStore.get<Stores>(KEY) : null;
      if (kept !== null) [this.stores, this.keptFromMs] = [kept.value, kept.fromMs];
      if (this.stores === null) this.trouble = error instanceof Error ? error.message : String(error);
    }
  }

  partOf(number: string): StoresPart | undefined {
    return this.stores?.parts.find(({ part }) => part.number === number);
  }
}

/** The numbers of all parts, as far as this device can know them. */
export async function partNumbers(): Promise<string[]> {
  const known = new StoresKnown();
  await known.load();
  return known.stores?.parts.map(({ part }) => part.number) ?? [];
}
