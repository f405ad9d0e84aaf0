// One thing asked of the server whose answer is waited for, one at a time: signing in, and what belongs to accounts. After
// several wrong tries the server says how long to wait; until then nothing is sent.

import { client, codeOf, Refused, Unreachable } from '../wire/client';
import { say } from '../words/words';

const TICK_MS = 250;

export class Asking {
  isSending = $state(false);
  /** Why not, in words; '' where nothing went wrong. */
  trouble = $state('');
  /** What kind of refusal it was; '' where there was none. */
  code = $state('');
  /** How long to wait before the next try, in s. */
  leftSeconds = $state(0);

  /** The answer; null where there was none, or where nothing was asked because it must wait. */
  async send<Answer>(act: (server: typeof client) => Promise<Answer>): Promise<Answer | null> {
    if (this.isSending || this.leftSeconds > 0) return null;
    [this.isSending, this.trouble, this.code] = [true, '', ''];
    try {
      return await act(client);
    } catch (error) {
      this.fail(error);
      return null;
    } finally {
      this.isSending = false;
    }
  }

  /** Another form begins. */
  begin(): void {
    if (this.leftSeconds === 0) [this.trouble, this.code] = ['', ''];
  }

  private fail(error: unknown): void {
    if (error instanceof Refused) {
      this.code = codeOf(error.problem);
      const seconds = error.problem.saying?.numbers['seconds'] ?? 0;
      if (this.code === 'try-later' && seconds > 0) this.wait(Date.now() + seconds * 1000);
      this.trouble = this.code === 'try-later' ? say('signin.wait') : error.message;
    } else if (error instanceof Unreachable) this.trouble = error.message;
    else throw error;
  }

  private wait(untilMs: number): void {
    this.leftSeconds = Math.max(0, Math.ceil((untilMs - Date.now()) / 1000));
    if (this.leftSeconds > 0) window.setTimeout(() => this.wait(untilMs), TICK_MS);
    else [this.trouble, this.code] = ['', ''];
  }
}
