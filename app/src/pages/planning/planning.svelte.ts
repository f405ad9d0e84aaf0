// The stop that a person is planning on the Horizon: moved, estimated as it moves, set down, agreed or put back; and what
// was agreed last, so that it can be taken back. Only agreeing changes anything in the shop.

import { client, Refused } from '../../wire/client';
import type { Stop, StopEstimate } from '../../wire/contract';
import { forecasts } from '../../wire/forecasts.svelte';
import { me } from '../../wire/me.svelte';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';
import { say } from '../../words/words';
import { Latest } from './latest';
import { changesOf, movedTo, tryOf } from './trial';
import type { Trial } from './trial';

/** What a person agreed last: the stop as it is now, and as it was; null: it is a new one. */
export interface Agreed {
  stop: Stop;
  before: Stop | null;
}

export class Planning {
  trial = $state.raw<Trial | null>(null);
  /** It is held by the pointer or by keys; a confirmation is asked for when it is set down. */
  isMoving = $state(false);
  /** Of the trial as it is, or of the one just before. */
  estimate = $state.raw<StopEstimate | null>(null);
  /** Is `estimate` that of the trial as it is? */
  isFresh = $state(false);
  trouble = $state('');
  isSending = $state(false);
  agreed = $state.raw<Agreed | null>(null);
  isUndone = $state(false);

  /** One id as long as it is not known whether it arrived. */
  private id = newId();
  private readonly asking = new Latest<Trial, StopEstimate>(
    (trial) => client.estimateStop(tryOf(trial)),
    (estimate, trial) => {
      [this.estimate, this.isFresh] = [estimate, trial === this.trial];
      this.trouble = '';
    },
    (error) => {
      this.estimate = null;
      this.trouble = error instanceof Error ? error.message : String(error);
    },
  );

  begin(trial: Trial, isMoving = false): void {
    if (!me.may('agreeStop')) return;
    this.putBack();
    [this.agreed, this.isUndone, this.isMoving] = [null, false, isMoving];
    this.take(trial);
  }

  /** While it is moved: what it would be where it is now. */
  hold(trial: Trial): void {
    this.isMoving = true;
    this.take(trial);
  }

  /** Another day, shift or other tasks. */
  change(part: Partial<Trial>): void {
    if (this.trial !== null) this.take({ ...this.trial, ...part });
  }

  moveTo(on: string): void {
    if (this.trial === null) return;
    const moved = movedTo(this.trial, on, forecasts.shifts, forecasts.today);
    if (moved.on !== this.trial.on) this.take(moved);
  }

  setDown(): void {
    this.isMoving = false;
  }

  putBack(): void {
    this.asking.forget();
    [this.trial, this.estimate, this.isMoving, this.trouble] = [null, null, false, ''];
  }

  /** Resolves when it is known: true if the server has it. */
  async agree(by: string): Promise<boolean> {
    const { trial } = this;
    if (trial === null || this.isSending) return false;
    return this.send(async () => {
      const stop = await this.agreeTo(trial, by);
      this.putBack();
      [this.agreed, this.isUndone] = [{ stop, before: trial.stop }, false];
      return trial.machine;
    });
  }

  /** Takes back what was agreed last: withdraws a new stop, gives a changed one what it had. */
  async undo(by: string): Promise<boolean> {
    const { agreed } = this;
    if (agreed === null || this.isSending) return false;
    return this.send(async () => {
      await this.takeBack(agreed, by);
      [this.agreed, this.isUndone] = [null, true];
      return agreed.stop.machine;
    });
  }

  /** A stop that was withdrawn elsewhere or is over leaves nothing to take back. */
  forgetAgreed(): void {
    [this.agreed, this.isUndone] = [null, false];
  }

  private take(trial: Trial): void {
    [this.trial, this.isFresh] = [trial, false];
    if (trial.tasks.length > 0) this.asking.want(trial);
    else this.estimate = null;
  }

  private sign(by: string) {
    const at = instantNow();
    return { id: this.id, by, at, sent_at: at };
  }

  private agreeTo(trial: Trial, by: string): Promise<Stop> {
    const { machine, on, shift, tasks, stop } = trial;
    if (stop === null) return client.agreeStop(machine, { ...this.sign(by), on, shift, tasks });
    return client.changeStop(stop.id, { ...this.sign(by), version: stop.version, ...changesOf(trial) });
  }

  private takeBack({ stop, before }: Agreed, by: string): Promise<Stop> {
    if (before === null) return client.withdrawStop(stop.id, { ...this.sign(by), why: say('plan_stop.undone_why') });
    const tasks = before.tasks.map(({ task }) => task);
    const { on, shift } = before;
    return client.changeStop(stop.id, { ...this.sign(by), version: stop.version, on, shift, tasks });
  }

  private async send(act: () => Promise<string>): Promise<boolean> {
    [this.isSending, this.trouble] = [true, ''];
    try {
      const machine = await act();
      this.id = newId();
      void forecasts.reload(machine).catch(() => undefined);
      return true;
    } catch (error) {
      if (error instanceof Refused) this.id = newId();
      this.trouble =
        error instanceof Refused ? say('form.refused', { detail: error.message }) : say('plan_stop.not_sent');
      return false;
    } finally {
      this.isSending = false;
    }
  }
}
