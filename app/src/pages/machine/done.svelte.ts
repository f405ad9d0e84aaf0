// One press of Done, from the press to the end of the time to undo. The press is kept on this device before anything is
// confirmed; saved it is when the server has it, and from then on it can be undone for as long as the server lets it.

import type { Dated, Entered } from '../../outbox/entered';
import { NotKept, outbox } from '../../outbox/outbox.svelte';
import { client, Refused, Unreachable } from '../../wire/client';
import type { AsFound, DoneEdit, Entry, Task } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';

export type DoneStep = 'idle' | 'keeping' | 'kept' | 'saved' | 'undoing' | 'undone';
export type DoneTrouble = { why: NotKept['why'] | 'not undone' } | { why: 'refused'; detail: string };

export class DonePress {
  step = $state<DoneStep>('idle');
  trouble = $state<DoneTrouble | null>(null);
  /** The server's entry; null while it is kept here only, and where another tab has sent it. */
  entry = $state.raw<Entry | null>(null);
  /** Who did it and when, by this device. */
  by = $state('');
  at = $state('');
  /** Seconds in which Undo still works; by the server's own two times, so that the device's clock does not matter. */
  undoLeft = $state(0);

  private undoId = newId();
  private undoEndsAtMs = 0;
  private timer = 0;

  async mark(task: Task, by: string, asFound: '' | AsFound): Promise<void> {
    if (this.step !== 'idle') return;
    this.begin('keeping');
    [this.by, this.at] = [by, instantNow()];
    const { machine, key, title } = task;
    const body: Dated<DoneEdit> = { id: newId(), by, at: this.at, ...(asFound === '' ? {} : { as_found: asFound }) };
    const entered: Entered = {
      operation: 'markDone',
      path: { machine, task: key },
      body,
      about: { machine, what: title },
    };
    try {
      await outbox.keep([entered]);
      this.step = 'kept';
      this.save((await outbox.whenSent(body.id)) as Entry | null);
    } catch (error) {
      this.fail(error, 'idle');
    }
  }

  async undo(): Promise<void> {
    if (this.step !== 'saved' || this.entry === null) return;
    this.begin('undoing');
    try {
      await client.undo(this.entry.id, { id: this.undoId, by: this.entry.by });
      this.step = 'undone';
      this.stop();
    } catch (error) {
      this.fail(error, 'saved');
    }
  }

  /** Ready for another press. */
  reset(): void {
    this.stop();
    this.step = 'idle';
    this.trouble = null;
    this.entry = null;
    this.undoId = newId();
  }

  stop(): void {
    window.clearInterval(this.timer);
  }

  private begin(step: DoneStep): void {
    this.trouble = null;
    this.step = step;
  }

  private save(entry: Entry | null): void {
    this.entry = entry;
    this.step = 'saved';
    if (entry !== null) this.startCountdown(entry);
  }

  private fail(error: unknown, back: DoneStep): void {
    this.step = back;
    if (error instanceof Refused) this.trouble = { why: 'refused', detail: error.message };
    else if (error instanceof NotKept) this.trouble = { why: error.why };
    else if (error instanceof Unreachable) this.trouble = { why: 'not undone' };
    else throw error;
  }

  private startCountdown(entry: Entry): void {
    const allowedMs = entry.undo_until ? Date.parse(entry.undo_until) - Date.parse(entry.at) : 0;
    this.undoEndsAtMs = performance.now() + allowedMs;
    this.tick();
    this.timer = window.setInterval(() => this.tick(), 250);
  }

  private tick(): void {
    this.undoLeft = Math.max(0, Math.ceil((this.undoEndsAtMs - performance.now()) / 1000));
    if (this.undoLeft === 0) this.stop();
  }
}
