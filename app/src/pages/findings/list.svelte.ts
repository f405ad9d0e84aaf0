// The findings of the whole shop, fresh while the line is open; without a connection those that the device kept.

import { keptStore } from '../../kept/store';
import { client } from '../../wire/client';
import type { Findings } from '../../wire/contract';

export type WhichFindings = 'open' | 'settled';

export class FindingList {
  findings = $state.raw<Findings['findings'] | null>(null);
  /** From when they are (device's clock, ms), where the server could not be asked; 0: fresh. */
  keptFromMs = $state(0);
  trouble = $state('');
  private which: WhichFindings = 'open';

  async load(which: WhichFindings): Promise<void> {
    if (which !== this.which) this.findings = null;
    this.which = which;
    try {
      const { findings } = await client.findings({ state: which });
      if (this.which !== which) return;
      [this.findings, this.keptFromMs, this.trouble] = [findings, 0, ''];
      void keptStore.put([{ key: `findings/${which}`, value: findings, fromMs: Date.now() }]);
    } catch (error) {
      if (this.which === which) await this.showKept(which, error);
    }
  }

  private async showKept(which: WhichFindings, error: unknown): Promise<void> {
    const kept = this.findings === null ? await keptStore.get<Findings['findings']>(`findings/${which}`) : null;
    if (this.which !== which) return;
    if (kept !== null) [this.findings, this.keptFromMs] = [kept.value, kept.fromMs];
    if (this.findings === null) this.trouble = error instanceof Error ? error.message : String(error);
  }
}
