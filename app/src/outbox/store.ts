// The outbox on the device: what was entered and not yet taken by the server, in IndexedDB.
//
//   entries   order (counted up), id (once), state     what was entered, without the bytes of photos
//   photos    id                                       the bytes, gone as soon as the server has them
//
// Adding is one transaction that has reached the disk when it resolves (strict durability): whatever is confirmed on the
// screen outlives the tab, the browser and a dead battery. Photos are bytes in their row rather than Blobs, which
// browsers may keep as files of their own beside the database.

import { Dexie } from 'dexie';
import type { EntityTable } from 'dexie';
import type { Entered, Refusal, Row, TakenPhoto } from './entered';

interface PhotoBytes {
  id: string;
  bytes: ArrayBuffer;
}

/** Why something could not be kept; nothing of it was. */
export class NotKept extends Error {
  constructor(
    readonly why: 'storage full' | 'storage refused',
    cause: unknown,
  ) {
    super(String(cause));
    this.name = 'NotKept';
  }
}

/** Looks through the causes: a full disk ends a transaction, and the reason lies within. */
function isFull(error: unknown): boolean {
  if (typeof error !== 'object' || error === null) return false;
  const { name, inner } = error as { name?: string; inner?: unknown };
  return name === 'QuotaExceededError' || isFull(inner);
}

type NewRow = Omit<Row, 'order'>;

function rowOf(entered: Entered): NewRow {
  return { ...entered, id: entered.body.id, state: 'waiting' };
}

function photoRow(photo: TakenPhoto, entry: Entered): NewRow {
  const { by, at } = entry.body;
  const body = { id: photo.id, by, at };
  return rowOf({ operation: 'keepPhoto', path: { photo: photo.id }, body, about: entry.about });
}

export class OutboxStore {
  private readonly db: Dexie;
  private readonly entries: EntityTable<Row, 'order'>;
  private readonly photos: EntityTable<PhotoBytes, 'id'>;

  constructor(name = 'hourwright-outbox') {
    this.db = new Dexie(name, { chromeTransactionDurability: 'strict' });
    this.db.version(1).stores({ entries: '++order, &id, state', photos: 'id' });
    this.entries = this.db.table('entries');
    this.photos = this.db.table('photos');
  }

  /** All of it or nothing; photos go before the entry that names them, in the order given. What is there already by
   * its id stays as it is. Throws NotKept. */
  async add(entered: readonly [Entered, ...Entered[]], photos: readonly TakenPhoto[] = []): Promise<void> {
    const rows = [...photos.map((photo) => photoRow(photo, entered[0])), ...entered.map(rowOf)];
    try {
      await this.db.transaction('rw', this.entries, this.photos, async () => {
        const there = await this.idsThere(rows);
        await this.photos.bulkPut(photos.map(({ id, bytes }) => ({ id, bytes })));
        for (const row of rows) if (!there.includes(row.id)) await this.entries.add(row as Row);
      });
    } catch (error) {
      throw new NotKept(isFull(error) ? 'storage full' : 'storage refused', error);
    }
  }

  /** In the order in which they were entered. */
  all(): Promise<Row[]> {
    return this.entries.orderBy('order').toArray();
  }

  async waiting(): Promise<Row[]> {
    return this.entries.where('state').equals('waiting').sortBy('order');
  }

  async bytesOf(photo: string): Promise<ArrayBuffer | undefined> {
    return (await this.photos.get(photo))?.bytes;
  }

  /** The server has it. Walks and answers stay, without counting as unsent, until the rounds that it shows have them. */
  async sent(row: Row, atMs: number): Promise<void> {
    const stays = row.operation === 'beginWalk' || row.operation === 'answerChecks';
    if (stays) await this.entries.update(row.order, { state: 'sent', sentAtMs: atMs });
    else await this.remove([row]);
  }

  async refused(row: Row, refusal: Refusal): Promise<void> {
    await this.entries.update(row.order, { state: 'refused', refusal });
  }

  /** A person wants a refused one sent again. */
  async again(row: Row): Promise<void> {
    await this.entries.update(row.order, { state: 'waiting', refusal: undefined });
  }

  async remove(rows: readonly Row[]): Promise<void> {
    await this.db.transaction('rw', this.entries, this.photos, async () => {
      await this.entries.bulkDelete(rows.map((row) => row.order));
      await this.photos.bulkDelete(rows.filter((row) => row.operation === 'keepPhoto').map((row) => row.id));
    });
  }

  close(): void {
    this.db.close();
  }

  private async idsThere(rows: readonly NewRow[]): Promise<string[]> {
    const found = await this.entries
      .where('id')
      .anyOf(rows.map((row) => row.id))
      .toArray();
    return found.map((row) => row.id);
  }
}
