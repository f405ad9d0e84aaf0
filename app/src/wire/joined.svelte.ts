// How this device reaches the server: it is the server's own computer, or has joined, or neither; and whether what it
// sends can be read on the way. At a device that has joined a PIN is enough to sign in.

import { client } from './client';
import type { Join } from './contract';

class Joined {
  /** What the server said last; null: it has not been reached yet. */
  state = $state.raw<Join | null>(null);
  /** Neither the server's own computer nor a device that has joined. */
  readonly isStrange = $derived(this.state !== null && !this.state.this_computer && this.state.device === null);
  /** This device is somewhere else, and what it sends can be read on the way. */
  readonly isOpenLine = $derived(this.state !== null && !this.state.this_computer && !this.state.encrypted);

  /** Asks the server anew; false where it cannot be reached. */
  async ask(): Promise<boolean> {
    try {
      this.state = await client.join();
    } catch {
      return false;
    }
    return true;
  }
}

export const joined = new Joined();
