// One thing that a person decides at a desk: sent at once, under an id that stays the same until the server has answered,
// so that a second press after a lost answer enters nothing twice.

import { person } from '../../parts/person.svelte';
import { Refused } from '../../wire/client';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';
import { say } from '../../words/words';

export interface Signed {
  id: string;
  by: string;
  at: string;
  sent_at: string;
}

export class DeskDeed {
  isSending = $state(false);
  /** Why it was not kept, in words. */
  trouble = $state('');
  /** Somebody pressed, and nobody is named. */
  isNameless = $state(false);
  /** The server said no to the latest. */
  isRefused = $state(false);
  private id = newId();

  /** @param who the id of the field that asks for the name
   * @returns the server's answer; null where there was none */
  async send<Answer>(who: string, act: (signed: Signed) => Promise<Answer>): Promise<Answer | null> {
    this.isNameless = person.name === '';
    if (this.isNameless) document.getElementById(who)?.focus();
    if (this.isNameless || this.isSending) return null;
    [this.isSending, this.trouble, this.isRefused] = [true, '', false];
    const at = instantNow();
    try {
      const answer = await act({ id: this.id, by: person.name, at, sent_at: at });
      this.id = newId();
      return answer;
    } catch (error) {
      this.isRefused = error instanceof Refused;
      if (this.isRefused) this.id = newId();
      this.trouble = error instanceof Refused ? say('form.refused', { detail: error.message }) : say('form.not_saved');
      return null;
    } finally {
      this.isSending = false;
    }
  }
}
