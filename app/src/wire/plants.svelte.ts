// The plants of a group, on the group's own site: loaded while a page shows them, and kept fresh. Every plant is told of
// several times a minute, so of many plants something changes nearly each second; one load then stands for all that
// changed since the last. Without a connection what the device kept is shown.

import { keptStore } from '../kept/store';
import { client } from './client';
import type { GroupFloor, GroupPlant } from './contract';
import { live } from './live.svelte';

const PAUSE_MS = 5_000;
const TICK_MS = 5_000;
const RETRY_MS = 10_000;

class Plants {
  /** In the order of their keys. */
  all = $state.raw<GroupPlant[]>([]);
  /** Have they been loaded, now or before, at all? */
  isKnown = $state(false);
  /** Why the last load failed; empty when it did not. */
  trouble = $state('');

  /** Now by the server's clock, as Unix ms; it moves on while a page shows them. */
  nowMs = $state(live.now().getTime());

  private followers = 0;
  private timer = 0;
  private clock = 0;
  private loadedAtMs = 0;
  private isLoading = false;
  private endListening = () => {};

  /** Keeps them fresh until the function that it gives is called. */
  follow(): () => void {
    this.followers += 1;
    if (this.followers === 1) {
      this.endListening = live.onPlants(() => this.hear());
      this.clock = window.setInterval(() => (this.nowMs = live.now().getTime()), TICK_MS);
      void this.showKept();
      // While the line is not open yet, its opening says that everything may have changed.
      if (live.link === 'open') void this.load();
    }
    return () => this.leave();
  }

  private leave(): void {
    this.followers -= 1;
    if (this.followers > 0) return;
    this.endListening();
    window.clearInterval(this.clock);
    window.clearTimeout(this.timer);
    this.timer = 0;
  }

  /** At once, or when the pause since the last load is over. */
  private hear(): void {
    const waitMs = this.loadedAtMs + PAUSE_MS - Date.now();
    if (waitMs <= 0 && !this.isLoading) void this.load();
    else this.arm(Math.max(waitMs, PAUSE_MS / 5));
  }

  private arm(ms: number): void {
    if (this.timer !== 0 || this.followers === 0) return;
    this.timer = window.setTimeout(() => {
      this.timer = 0;
      this.hear();
    }, ms);
  }

  private async load(): Promise<void> {
    this.isLoading = true;
    try {
      this.take(await client.groupFloor());
      this.trouble = '';
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
      this.arm(RETRY_MS);
    } finally {
      this.isLoading = false;
    }
  }

  private take(floor: GroupFloor): void {
    this.loadedAtMs = Date.now();
    this.all = floor.plants;
    this.nowMs = Date.parse(floor.now);
    this.isKnown = true;
    void keptStore.put([{ key: 'plants', value: floor.plants, fromMs: this.loadedAtMs }]);
  }

  private async showKept(): Promise<void> {
    const kept = await keptStore.get<GroupPlant[]>('plants');
    if (kept === null || this.isKnown) return;
    this.all = kept.value;
    this.isKnown = true;
  }
}

export const plants = new Plants();
