// The latest proposal of the optimiser, followed while it is being made.

import { client, Refused } from '../../wire/client';
import type { Difference, Proposal, ProposalEdit } from '../../wire/contract';
import { forecasts } from '../../wire/forecasts.svelte';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';
import { say } from '../../words/words';

const FOLLOW_MS = 500;

export type ProposalWish = Pick<ProposalEdit, 'what' | 'weeks' | 'seconds' | 'moving'>;

export class Proposals {
  latest = $state.raw<Proposal | null>(null);
  trouble = $state('');
  isSending = $state(false);
  /** Something of the latest was accepted here, and can be taken back. */
  canUndo = $state(false);

  private id = newId();
  private timer = 0;

  /** Looks whether there is one; follows it while it runs. */
  async load(): Promise<void> {
    try {
      this.take(await client.proposal());
    } catch (error) {
      if (!(error instanceof Refused && error.problem.status === 404)) this.followOn();
    }
  }

  leave(): void {
    window.clearTimeout(this.timer);
  }

  begin(wish: ProposalWish, by: string): Promise<void> {
    return this.send(async () => {
      this.canUndo = false;
      this.take(await client.propose({ id: this.id, by, ...wish }));
    });
  }

  cancel(by: string): Promise<void> {
    return this.sendAbout(async (one) => this.take(await client.cancelProposal(one.id, this.sign(by))));
  }

  accept(differences: readonly Difference[], by: string): Promise<void> {
    return this.sendAbout(async (one) => {
      const keys = differences.map(({ key }) => key);
      await client.acceptProposal(one.id, { ...this.sign(by), differences: keys });
      this.canUndo = true;
      await this.loadAll();
    });
  }

  undo(by: string): Promise<void> {
    return this.sendAbout(async (one) => {
      await client.undoProposal(one.id, this.sign(by));
      this.canUndo = false;
      await this.loadAll();
    });
  }

  private sign(by: string) {
    const at = instantNow();
    return { id: this.id, by, at, sent_at: at };
  }

  private async loadAll(): Promise<void> {
    await Promise.all([this.load(), forecasts.load()]);
  }

  private sendAbout(act: (one: Proposal) => Promise<void>): Promise<void> {
    const { latest } = this;
    return latest === null ? Promise.resolve() : this.send(() => act(latest));
  }

  private async send(act: () => Promise<void>): Promise<void> {
    if (this.isSending) return;
    [this.isSending, this.trouble] = [true, ''];
    try {
      await act();
      this.id = newId();
    } catch (error) {
      if (error instanceof Refused) this.id = newId();
      this.trouble =
        error instanceof Refused ? say('form.refused', { detail: error.message }) : say('plan_stop.not_sent');
    }
    this.isSending = false;
  }

  private take(proposal: Proposal): void {
    this.latest = proposal;
    if (proposal.state === 'running') this.followOn();
  }

  private followOn(): void {
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => void this.load(), FOLLOW_MS);
  }
}
