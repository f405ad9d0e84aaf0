// Whether this device may use the shop: it is the server's own computer, or it has joined. Until that is known nothing
// of the shop is asked for, so that a phone that has not joined sees how to join and no failures.

import { recall, remember } from '../parts/remembered';
import { client } from './client';
import type { Join } from './contract';

const OWN_NAMES = ['localhost', '127.0.0.1', '[::1]'];

class Joined {
  /** What the server said last; null: it has not been reached yet. */
  state = $state.raw<Join | null>(null);
  readonly isLet = $derived(this.state === null || this.state.this_computer || this.state.device !== null);
  /** This device is somewhere else, and what it sends can be read on the way. */
  readonly isOpenLine = $derived(this.state !== null && !this.state.this_computer && !this.state.encrypted);
  private begin: (() => void) | null = null;

  /** `begin` asks for what is of the shop. A device that was let in before begins at once, also without a connection. */
  async start(begin: () => void): Promise<void> {
    this.begin = begin;
    if (OWN_NAMES.includes(window.location.hostname) || recall('joined') === 'yes') this.letIn();
    await this.ask();
  }

  /** Asks the server anew; false where it cannot be reached. */
  async ask(): Promise<boolean> {
    try {
      this.state = await client.join();
    } catch {
      return false;
    }
    remember('joined', this.isLet ? 'yes' : '');
    if (this.isLet) this.letIn();
    return true;
  }

  private letIn(): void {
    this.begin?.();
    this.begin = null;
  }
}

export const joined = new Joined();
