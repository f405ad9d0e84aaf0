// One press of Done, from the press to the end of the time to undo. Nothing counts as saved before the server said so;
// a press that got no answer keeps its id, so that pressing again enters nothing twice.

import { client, Refused, Unreachable } from '../../wire/client';
import type { Entry } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';

export type DoneStep = 'idle' | 'sending' | 'saved' | 'undoing' | 'undone';
export type DoneTrouble = { why: 'unreachable' | 'not undone' } | { why: 'refused'; detail: string };

export class DonePress {
  step = $state<DoneStep>('idle');
  trouble = $state<DoneTrouble | null>(null);
  entry = $state.raw<Entry | null>(null);
  /** Seconds in which Undo still works; by the server's own two times, so that the device's clock does not matter. */
  undoLeft = $state(0);

  private doneId = newId();
  private undoId = newId();
  private undoEndsAtMs = 0;
  private timer = 0;

  async mark(machine: string, task: string, by: string): Promise<void> {
    if (this.step !== 'idle') return;
    this.begin('sending');
    try {
      const entry = await client.markDone(machine, task, { id: this.doneId, by, at: instantNow() });
      this.entry = entry;
      this.step = 'saved';
      this.startCountdown(entry);
    } catch (error) {
      this.fail(error, 'idle', 'unreachable');
      if (error instanceof Refused) this.doneId = newId();
    }
  }

  async undo(by: string): Promise<void> {
    if (this.step !== 'saved' || this.entry === null) return;
    this.begin('undoing');
    try {
      await client.undo(this.entry.id, { id: this.undoId, by });
      this.step = 'undone';
      this.stop();
    } catch (error) {
      this.fail(error, 'saved', 'not undone');
    }
  }

  /** Ready for another press. */
  reset(): void {
    this.stop();
    this.step = 'idle';
    this.trouble = null;
    this.entry = null;
    this.doneId = newId();
    this.undoId = newId();
  }

  stop(): void {
    window.clearInterval(this.timer);
  }

  private begin(step: DoneStep): void {
    this.trouble = null;
    this.step = step;
  }

  private fail(error: unknown, back: DoneStep, why: 'unreachable' | 'not undone'): void {
    this.step = back;
    if (error instanceof Refused) this.trouble = { why: 'refused', detail: error.problem.detail };
    else if (error instanceof Unreachable) this.trouble = { why };
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
