// The outbox as the pages see it: what was entered, what waits and since when, and the one place to enter something.
// One object for the whole app; several tabs share what lies on the device and tell each other when it changes.

import { live } from '../wire/live.svelte';
import { Refused } from '../wire/client';
import { me } from '../wire/me.svelte';
import type { Entered, Row, TakenPhoto } from './entered';
import type { Delay, Outcome } from './flush';
import { flush, pauseAfter } from './flush';
import { askToPersist, showOnIcon } from './persist';
import { senderFor } from './send';
import { NotKept, OutboxStore } from './store';

const LOCK = 'hourwright outbox';

/** Gets the server's answer; null when another tab sent it. */
interface Waiter {
  resolve(answer: unknown): void;
  reject(error: Refused): void;
}

class Outbox {
  /** In the order in which they were entered. */
  rows = $state.raw<Row[]>([]);
  /** What the sending waits for; null: for nothing. */
  delay = $state<Delay | null>(null);
  /** False until what lies on the device has been read. */
  isRead = $state(false);

  readonly waiting = $derived(this.rows.filter((row) => row.state === 'waiting'));
  readonly refused = $derived(this.rows.filter((row) => row.state === 'refused'));
  readonly unsent = $derived(this.rows.filter((row) => row.state !== 'sent'));
  /** When the oldest unsent thing was entered (Unix ms, device's clock); null: there is none. */
  readonly oldestAtMs = $derived(
    this.unsent.length === 0 ? null : Math.min(...this.unsent.map((row) => Date.parse(row.body.at))),
  );

  readonly store = new OutboxStore();
  private readonly send = senderFor((photo) => this.store.bytesOf(photo));
  private readonly tabs = typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(LOCK);
  private readonly waiters = new Map<string, Waiter[]>();
  private isFlushing = false;
  private isWanted = false;
  private vain = 0;
  private timer = 0;

  start(): void {
    void this.read().then(() => this.hurry());
    live.whenOpened(() => this.hurry());
    for (const event of ['online', 'focus', 'pageshow']) window.addEventListener(event, () => this.hurry());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') this.hurry();
    });
    this.tabs?.addEventListener('message', () => void this.read());
  }

  /** Keeps it on the device, all or nothing; resolves when it is on the disk and may be confirmed. Sending begins by
   * itself. Throws NotKept. */
  async keep(entered: readonly [Entered, ...Entered[]], photos: readonly TakenPhoto[] = []): Promise<void> {
    await this.store.add(entered, photos);
    await this.changed();
    void askToPersist();
    this.hurry();
  }

  /** The server's answer to an entry that was kept just now; null when another tab sent it. Rejects with Refused. */
  whenSent(id: string): Promise<unknown> {
    return new Promise((resolve, reject) => {
      this.waiters.set(id, [...(this.waiters.get(id) ?? []), { resolve, reject }]);
    });
  }

  /** Sends now rather than when the pause is over. */
  hurry(): void {
    window.clearTimeout(this.timer);
    if (this.isFlushing) this.isWanted = true;
    else void this.flushAll();
  }

  /** A refused one once more: its reason may be gone. */
  async sendAgain(row: Row): Promise<void> {
    await this.store.again(row);
    await this.changed();
    this.hurry();
  }

  /** Only by a person's deliberate act, and only what the server refused. */
  async dismiss(row: Row): Promise<void> {
    if (row.state !== 'refused') return;
    await this.store.remove([row]);
    await this.changed();
  }

  /** Sent ones that the server's own pages show by now. */
  async drop(rows: readonly Row[]): Promise<void> {
    if (rows.length === 0) return;
    await this.store.remove(rows.filter((row) => row.state === 'sent'));
    await this.changed();
  }

  private async changed(): Promise<void> {
    await this.read();
    this.tabs?.postMessage('changed');
  }

  private async read(): Promise<void> {
    try {
      this.rows = await this.store.all();
      showOnIcon(this.unsent.length);
      this.settleWaiters();
    } catch {
      // This browser keeps nothing; whoever enters something is told so then.
    }
    this.isRead = true;
  }

  private async flushAll(): Promise<void> {
    this.isFlushing = true;
    try {
      do {
        this.isWanted = false;
        this.delay = await this.flushAlone();
      } while (this.isWanted);
    } catch {
      this.delay = 'unreachable';
    }
    this.isFlushing = false;
    await this.read();
    this.vain = this.delay === null ? 0 : this.vain + 1;
    if (this.delay !== null) this.timer = window.setTimeout(() => this.hurry(), pauseAfter(this.vain));
  }

  /** One tab at a time where the browser can see to that; else the server knows the same id again. */
  private flushAlone(): Promise<Delay | null> {
    const act = () =>
      flush(
        this.store,
        () => me.name,
        this.send,
        (row, outcome) => this.hear(row, outcome),
      );
    const locks = navigator.locks as Navigator['locks'] | undefined;
    return locks ? locks.request(LOCK, act) : act();
  }

  private hear(row: Row, outcome: Outcome): void {
    const waiters = this.waiters.get(row.id) ?? [];
    if (outcome.is === 'taken') for (const one of waiters) one.resolve(outcome.answer);
    if (outcome.is === 'refused')
      for (const one of waiters)
        one.reject(new Refused({ type: 'about:blank', title: '', ...outcome.refusal, code: 'refused' }));
    if (outcome.is === 'taken' || outcome.is === 'refused') {
      this.waiters.delete(row.id);
      void this.changed();
    }
  }

  /** What another tab has sent gets its answer there; here it is only known to be gone. */
  private settleWaiters(): void {
    const there = new Set(this.waiting.map((row) => row.id));
    for (const [id, waiters] of this.waiters) {
      if (there.has(id) || this.isFlushing) continue;
      this.waiters.delete(id);
      for (const one of waiters) one.resolve(null);
    }
  }
}

export const outbox = new Outbox();
export { NotKept };
