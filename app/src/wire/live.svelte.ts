// What the pages show of the server, kept fresh: the shop, the Floor, the machine that is open. One object for the whole
// app; pages read it, and Svelte redraws what changed.

import { client, isAlive, Refused } from './client';
import { operations } from './contract';
import type { FloorMachine, Machine, Shop } from './contract';
import { Link } from './link';
import type { LinkGround, LinkState } from './link';

const browserGround: LinkGround = {
  open: () => new EventSource(operations.events.path),
  isAlive,
  setTimeout: (act, ms) => window.setTimeout(act, ms),
  clearTimeout: (timer) => window.clearTimeout(timer),
};

/** The tasks of an open machine follow its hours this often; its counters follow at once. */
const TASKS_FOLLOW_MS = 20_000;
const RELOAD_PAUSE_MS = 3_000;

class Live {
  shop = $state.raw<Shop | null>(null);
  /** In the shop's own order. */
  machines = $state.raw<FloorMachine[]>([]);
  /** The machine whose page is open. */
  machine = $state.raw<Machine | null>(null);
  /** Why the machine that was asked for cannot be shown, in the server's words. */
  refusal = $state('');
  link = $state<LinkState>('opening');
  /** Device time (ms) at which the server was last heard; 0: never. */
  heardAtMs = $state(0);
  /** How often the server said that a machine's tasks or entries changed, or that something was missed. */
  changes = $state(0);
  /** Server's clock minus the device's. */
  private skewMs = $state(0);

  private wanted: string | null = null;
  private tasksLoadedAtMs = 0;
  private readonly line = new Link(
    {
      opened: () => {
        this.changes += 1;
        void this.reload();
      },
      heard: (event, data) => this.hear(event, data),
      state: (state) => (this.link = state),
    },
    browserGround,
  );

  start(): void {
    this.line.open();
    window.addEventListener('online', () => this.line.hurry());
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') this.line.hurry();
    });
  }

  /** Now by the server's clock, as a Date. */
  now(): Date {
    return new Date(Date.now() + this.skewMs);
  }

  openMachine(key: string): void {
    if (this.machine?.key !== key) this.machine = null;
    this.refusal = '';
    this.wanted = key;
    void this.reloadMachine();
  }

  closeMachine(): void {
    this.wanted = null;
  }

  /** Loads the open machine afresh; resolves when it is there. */
  async reloadMachine(): Promise<void> {
    const key = this.wanted;
    if (key === null) return;
    this.tasksLoadedAtMs = Date.now();
    try {
      const machine = await client.machine(key);
      if (this.wanted === key) this.machine = machine;
      this.heardAtMs = Date.now();
    } catch (error) {
      if (this.wanted !== key) return;
      if (error instanceof Refused) this.refusal = error.problem.detail;
      else window.setTimeout(() => void this.retryMachine(key), RELOAD_PAUSE_MS);
    }
  }

  /** A load that got no answer while the line is open; when the line is lost, its opening loads everything. */
  private async retryMachine(key: string): Promise<void> {
    if (this.wanted === key && this.link === 'open') await this.reloadMachine();
  }

  private async reload(): Promise<void> {
    const machine = this.reloadMachine();
    try {
      const [shop, floor] = await Promise.all([client.shop(), client.floor()]);
      this.shop = shop;
      this.machines = floor.machines;
      this.skewMs = Date.parse(floor.now) - Date.now();
      this.heardAtMs = Date.now();
    } catch {
      window.setTimeout(() => void this.reload(), RELOAD_PAUSE_MS);
    }
    await machine;
  }

  private hear(event: string, data: unknown): void {
    this.heardAtMs = Date.now();
    if (event === 'machine') this.take(data as FloorMachine);
    else this.changes += 1;
    if (event === 'tasks' && (data as { machine: string }).machine === this.wanted) void this.reloadMachine();
  }

  private take(fresh: FloorMachine): void {
    this.machines = this.machines.map((machine) => (machine.key === fresh.key ? fresh : machine));
    if (this.machine?.key !== fresh.key) return;
    const { doing, feed, counters } = fresh;
    this.machine = { ...this.machine, doing, feed, counters: mergedCounters(this.machine.counters, counters) };
    if (Date.now() - this.tasksLoadedAtMs > TASKS_FOLLOW_MS) void this.reloadMachine();
  }
}

/** The Floor may carry fewer counters than the machine's page: those it carries move, the others stay. */
function mergedCounters(held: Machine['counters'], fresh: Machine['counters']): Machine['counters'] {
  const byKey = new Map(fresh.map((counter) => [counter.key, counter]));
  return held.map((counter) => byKey.get(counter.key) ?? counter);
}

export const live = new Live();
