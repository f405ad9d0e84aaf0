// One thing that a person enters about a finding: kept on this device before it is confirmed, sent by the outbox, and then
// with the server.

import type { Entered, TakenPhoto } from '../../outbox/entered';
import { NotKept, outbox } from '../../outbox/outbox.svelte';
import { Refused } from '../../wire/client';
import { say } from '../../words/words';

/** kept: on this device; sent: the server has it. */
export type KeepingStep = 'idle' | 'keeping' | 'kept' | 'sent';

export class Keeping {
  step = $state<KeepingStep>('idle');
  /** Why it is not kept, or why the server refused it, in words. */
  trouble = $state('');

  /** @param whenKept when it is on the disk of this device
   * @param whenSent when the server has it */
  async keep(
    entered: Entered,
    photos: readonly TakenPhoto[],
    whenKept: () => void,
    whenSent: () => Promise<void>,
  ): Promise<void> {
    if (this.step === 'keeping') return;
    [this.step, this.trouble] = ['keeping', ''];
    try {
      await outbox.keep([entered], photos);
      this.step = 'kept';
      whenKept();
      await outbox.whenSent(entered.body.id);
      this.step = 'sent';
      await whenSent();
    } catch (error) {
      this.fail(error);
    }
  }

  private fail(error: unknown): void {
    this.step = 'idle';
    if (error instanceof Refused) this.trouble = say('form.refused', { detail: error.message });
    else if (error instanceof NotKept)
      this.trouble = say(error.why === 'storage full' ? 'unsent.storage_full' : 'unsent.storage_refused');
    else throw error;
  }
}
