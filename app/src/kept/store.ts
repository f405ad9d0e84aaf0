// What the device keeps of the server's answers, for the time without a connection: the shop, the Floor, the rounds of
// every machine, and machines whose page was opened. All of it can be dropped and loaded again, so a write that fails
// loses nothing but the picture; the page then says that nothing is kept.

import { Dexie } from 'dexie';
import type { EntityTable } from 'dexie';

export interface Kept<Value = unknown> {
  /** "shop", "rounds/m01" */
  key: string;
  value: Value;
  /** When the server said it: Unix ms by the device's clock. */
  fromMs: number;
}

export class KeptStore {
  private readonly db: Dexie;
  private readonly kept: EntityTable<Kept, 'key'>;

  constructor(name = 'hourwright-kept') {
    this.db = new Dexie(name);
    this.db.version(1).stores({ kept: 'key' });
    this.kept = this.db.table('kept');
  }

  /** Gives whether it is kept now. */
  async put(rows: readonly Kept[]): Promise<boolean> {
    return this.kept.bulkPut([...rows]).then(
      () => true,
      () => false,
    );
  }

  /** As put, and nothing else stays whose key begins so. */
  async replace(prefix: string, rows: readonly Kept[]): Promise<boolean> {
    return this.db
      .transaction('rw', this.kept, async () => {
        await this.kept.where('key').startsWith(prefix).delete();
        await this.kept.bulkPut([...rows]);
      })
      .then(
        () => true,
        () => false,
      );
  }

  /** Nothing is kept any more. */
  async clear(): Promise<void> {
    await this.kept.clear().catch(() => undefined);
  }

  async get<Value>(key: string): Promise<Kept<Value> | null> {
    return this.kept.get(key).then(
      (row) => (row as Kept<Value> | undefined) ?? null,
      () => null,
    );
  }

  /** In the order of their keys. */
  async all<Value>(prefix: string): Promise<Array<Kept<Value>>> {
    const rows = this.kept.where('key').startsWith(prefix).sortBy('key');
    return rows.then(
      (found) => found as Array<Kept<Value>>,
      () => [],
    );
  }
}

export const keptStore = new KeptStore();
