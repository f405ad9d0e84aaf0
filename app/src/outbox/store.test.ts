import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { newId } from '../wire/uuid';
import type { Entered, Row, TakenPhoto } from './entered';
import { exported } from './export';
import { NotKept, OutboxStore } from './store';

const about = { machine: 'm01', what: 'Oil' };
const sign = () => ({ id: newId(), by: 'Ada', at: '2026-11-25T07:00:00.000Z' });
const done = (): Entered => ({
  ...{ operation: 'markDone', path: { machine: 'm01', task: 'oil' }, body: sign(), about },
});
const begun = (): Entered => ({
  ...{ operation: 'beginWalk', path: { machine: 'm01', rhythm: 'shift' }, body: { ...sign(), checks: [] }, about },
});
const photo = (): TakenPhoto => ({ id: newId(), sha256: 'a'.repeat(64), bytes: new Uint8Array([255, 216]).buffer });

let store: OutboxStore;
let name = '';
let count = 0;

beforeEach(() => {
  name = `outbox ${(count += 1)}`;
  store = new OutboxStore(name);
});
afterEach(() => {
  vi.restoreAllMocks();
  store.close();
});

const ids = async () => (await store.all()).map((row) => row.id);
const first = async () => (await store.all())[0] as Row;

describe('the outbox on the device', () => {
  test('keeps things in the order in which they were entered, photos before what names them', async () => {
    const [one, two, picture] = [done(), done(), photo()];
    await store.add([one]);
    await store.add([two], [picture]);
    expect(await ids()).toEqual([one.body.id, picture.id, two.body.id]);
    expect(new Uint8Array((await store.bytesOf(picture.id)) ?? new ArrayBuffer(0))).toEqual(new Uint8Array([255, 216]));
  });

  test('is there when the tab was killed', async () => {
    const one = done();
    await store.add([one]);
    store.close();
    store = new OutboxStore(name);
    expect(await ids()).toEqual([one.body.id]);
  });

  test('the same id again is the same entry', async () => {
    const one = done();
    await store.add([one]);
    await store.add([one]);
    expect(await ids()).toEqual([one.body.id]);
  });

  test('says that the storage is full, and nothing of it is kept', async () => {
    const full = new DOMException('no room', 'QuotaExceededError');
    const real = IDBObjectStore.prototype.add;
    let adds = 0;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, value, key) {
      if ((adds += 1) === 2) throw full;
      return real.call(this, value, key);
    });
    await expect(store.add([begun(), done()], [])).rejects.toMatchObject({ why: 'storage full' });
    vi.restoreAllMocks();
    expect(await ids()).toEqual([]);
  });

  test('says where a browser keeps nothing at all', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => {
      throw new DOMException('not here', 'InvalidStateError');
    });
    const failed = store.add([done()]);
    await expect(failed).rejects.toBeInstanceOf(NotKept);
    await expect(failed).rejects.toMatchObject({ why: 'storage refused' });
  });

  test('what was sent goes, with a photo’s bytes; walks stay until they are shown', async () => {
    const picture = photo();
    await store.add([done(), begun()], [picture]);
    for (const row of await store.all()) await store.sent(row, 1);
    expect((await store.all()).map((row) => [row.operation, row.state])).toEqual([['beginWalk', 'sent']]);
    expect(await store.bytesOf(picture.id)).toBeUndefined();
    expect(await store.waiting()).toEqual([]);
  });

  test('what was refused waits no more, until a person wants it sent again', async () => {
    await store.add([done()]);
    await store.refused(await first(), { status: 400, detail: 'no' });
    expect(await store.waiting()).toEqual([]);
    await store.again(await first());
    expect((await store.waiting()).map((row) => row.refusal)).toEqual([undefined]);
  });

  test('is handed out as a file with everything in it', async () => {
    await store.add([done()], [photo()]);
    const text = await exported(await store.all(), (id) => store.bytesOf(id));
    const { entries } = JSON.parse(text) as { entries: Array<Record<string, unknown>> };
    expect(entries.map((one) => one['operation'])).toEqual(['keepPhoto', 'markDone']);
    expect(entries[0]?.['jpeg_base64']).toBe('/9g=');
    expect(entries[1]?.['body']).toMatchObject({ by: 'Ada' });
  });
});
