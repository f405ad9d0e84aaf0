// One thing that a person decides at a desk: sent at once. What got no answer may have arrived all the same, so the next
// press sends exactly that again, under the same id and without what was changed since: nothing is entered twice, and
// nothing else under its id.
import { Refused } from '../../wire/client';

import { me } from '../../wire/me.svelte';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';
import { say } from '../../words/words';

export interface Signed {
  id: string;
  by: string;
  at: string;
  sent_at: string;
}

type Act<Answer> = (signed: Signed) => Promise<Answer>;

export class DeskDeed<Answer> {
  isSending = $state(false);
  /** Why it was not kept, in words. */
  trouble = $state('');
  /** The code of what the server said to the latest, where that was no; '' where it was not. */
  refusal = $state('');
  /** What was sent without an answer. */
  private unanswered: { act: Act<Answer>; signed: Signed } | null = null;

  /** Another form begins: what the server said to the one before is over; what got no answer is not. */
  begin(): void {
    if (this.unanswered === null) [this.trouble, this.refusal] = ['', ''];
  }

  /** @param act sends; what it sends must be settled beforehand, since it may be called again later
   * @returns the server's answer; null where there was none */
  async send(act: Act<Answer>): Promise<Answer | null> {
    if (this.isSending) return null;
    [this.isSending, this.trouble, this.refusal] = [true, '', ''];
    const at = instantNow();
    const sent = this.unanswered ?? { act, signed: { id: newId(), by: me.name, at, sent_at: at } };
    this.unanswered = null;
    try {
      return await sent.act(sent.signed);
    } catch (error) {
      if (!(error instanceof Refused)) this.unanswered = sent;
      this.refusal = error instanceof Refused ? (error.problem.saying?.code ?? error.problem.code ?? 'refused') : '';
      this.trouble = error instanceof Refused ? say('form.refused', { detail: error.message }) : say('form.no_answer');
      return null;
    } finally {
      this.isSending = false;
    }
  }
}
