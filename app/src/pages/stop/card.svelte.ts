// One stop's card, fresh while the line is open; without a connection as the device kept it.

import { keptStore } from '../../kept/store';
import { client, Refused } from '../../wire/client';
import type { StopCard } from '../../wire/contract';

export class CardOf {
  card = $state.raw<StopCard | null>(null);
  /** From when it is (device's clock, ms) where the server could not be asked; 0: fresh. */
  keptFromMs = $state(0);
  /** Why there is none, in words. */
  trouble = $state('');
  isRefused = $state(false);

  constructor(private readonly stop: string) {}

  async load(): Promise<void> {
    try {
      const card = await client.stop(this.stop);
      [this.card, this.keptFromMs, this.trouble] = [card, 0, ''];
      void keptStore.put([{ key: `stop/${this.stop}`, value: card, fromMs: Date.now() }]);
    } catch (error) {
      await this.showKept(error);
    }
  }

  private async showKept(error: unknown): Promise<void> {
    const kept = this.card === null ? await keptStore.get<StopCard>(`stop/${this.stop}`) : null;
    if (kept !== null) [this.card, this.keptFromMs] = [kept.value, kept.fromMs];
    this.isRefused = error instanceof Refused;
    if (this.card === null) this.trouble = error instanceof Error ? error.message : String(error);
  }
}
