// The machine that a finding is about, for its points and tasks; without a connection as the device kept it, if it did.

import { keptStore } from '../../kept/store';
import { client } from '../../wire/client';
import type { Machine } from '../../wire/contract';

export class MachineOf {
  machine = $state.raw<Machine | null>(null);
  private wanted = '';

  /** @param key of a machine; '' for none */
  async load(key: string): Promise<void> {
    if (key === this.wanted) return;
    this.wanted = key;
    this.machine = null;
    if (key === '') return;
    const found = await client.machine(key).catch(() => this.kept(key));
    if (this.wanted === key) this.machine = found;
  }

  private async kept(key: string): Promise<Machine | null> {
    return (await keptStore.get<Machine>(`machine/${key}`))?.value ?? null;
  }
}
