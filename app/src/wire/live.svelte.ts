// What the pages show of the server, kept fresh: the shop, the Floor, the machine that is open. One object for the whole
// app; pages read it, and Svelte redraws what changed. Without a connection it shows what the device kept.

import { keptStore } from '../kept/store';
import { client, isAlive, Refused } from './client';
import { operations } from './contract';
import type { Floor, FloorMachine, Machine, Shop } from './contract';
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
  /** Is `machine` as it was once, not yet as the server has it now? What edits a machine waits for the latter. */
  isMachineOld = $state(true);
  /** Why the machine that was asked for cannot be shown, in the server's words. */
  refusal = $state('');
  /** Is this the own site of a group of plants, which has no machines? False while the shop is not known. */
  readonly isGroup = $derived(this.shop?.group ?? false);
  link = $state<LinkState>('opening');
  /** Device time (ms) at which the server was last heard; 0: never. */
  heardAtMs = $state(0);
  /** How often the server said that a machine's tasks or entries changed, or that something was missed. */
  changes = $state(0);
  /** Server's clock minus the device's. */
  private skewMs = $state(0);

  private readonly openedListeners: Array<() => void> = [];
  private readonly tasksListeners: Array<(machine: string) => void> = [];
  /** Told which machine's tasks changed; null: something was missed, any may have. */
  private readonly changeListeners = new Set<(machine: string | null) => void>();
  private readonly storesListeners = new Set<() => void>();
  private readonly plantsListeners = new Set<() => void>();

  private isBegun = false;
  private wanted: string | null = null;
  private tasksLoadedAtMs = 0;
  private readonly line = new Link(
    {
      opened: () => {
        this.changes += 1;
        this.tellChange(null);
        this.tellPlants();
        void this.reload();
        for (const listener of this.openedListeners) listener();
      },
      heard: (event, data) => this.hear(event, data),
      state: (state) => (this.link = state),
    },
    browserGround,
  );

  /** Somebody has signed in. Once more changes nothing. */
  begin(): void {
    if (this.isBegun) return;
    this.isBegun = true;
    this.line.open();
    void this.showKept();
    if (this.wanted !== null) void this.reloadMachine();
  }

  /** Nobody has signed in any more. */
  end(): void {
    this.isBegun = false;
    this.line.close();
  }

  /** Follows the device: it woke up, or says that it is online. */
  listen(): void {
    const hurry = () => this.isBegun && this.line.hurry();
    window.addEventListener('online', hurry);
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible') hurry();
    });
  }

  /** Now by the server's clock, as a Date. */
  now(): Date {
    return this.byServer(Date.now());
  }

  /** A time of the device's clock (Unix ms) by the server's clock. */
  byServer(deviceMs: number): Date {
    return new Date(deviceMs + this.skewMs);
  }

  /** Tells whenever the line to the server is open (again). */
  whenOpened(listener: () => void): void {
    this.openedListeners.push(listener);
  }

  /** Tells whenever a machine's tasks, rounds, findings or entries changed. */
  whenTasksChanged(listener: (machine: string) => void): void {
    this.tasksListeners.push(listener);
  }

  /** Calls `listener` whenever tasks of a machine changed; gives what ends that. */
  onChange(listener: (machine: string | null) => void): () => void {
    this.changeListeners.add(listener);
    return () => this.changeListeners.delete(listener);
  }

  /** The same, and whenever the stores changed: what is there and ordered rests on both. */
  onStores(listener: () => void): () => void {
    this.storesListeners.add(listener);
    return () => this.storesListeners.delete(listener);
  }

  /** The same whenever plants of a group may have changed; on the group's own site. */
  onPlants(listener: () => void): () => void {
    this.plantsListeners.add(listener);
    return () => this.plantsListeners.delete(listener);
  }

  private tellChange(machine: string | null): void {
    for (const listener of this.changeListeners) listener(machine);
    this.tellStores();
  }

  private tellStores(): void {
    for (const listener of this.storesListeners) listener();
  }

  private tellPlants(): void {
    for (const listener of this.plantsListeners) listener();
  }

  /** What people call a machine; its key where there is none (any more). */
  nameOf(key: string): string {
    return this.machines.find((machine) => machine.key === key)?.name ?? key;
  }

  openMachine(key: string): void {
    if (this.machine?.key !== key) this.machine = null;
    this.isMachineOld = true;
    this.refusal = '';
    this.wanted = key;
    void this.reloadMachine();
    void this.showKeptMachine(key);
  }

  closeMachine(): void {
    this.wanted = null;
    this.isMachineOld = true;
  }

  /** Loads the open machine afresh; resolves when it is there. */
  async reloadMachine(): Promise<void> {
    const key = this.wanted;
    if (key === null) return;
    this.tasksLoadedAtMs = Date.now();
    try {
      const machine = await client.machine(key);
      if (this.wanted === key) this.show(machine);
      this.heardAtMs = Date.now();
      void keptStore.put([{ key: `machine/${key}`, value: machine, fromMs: this.heardAtMs }]);
    } catch (error) {
      if (this.wanted !== key) return;
      if (error instanceof Refused) this.refusal = error.message;
      else window.setTimeout(() => void this.retryMachine(key), RELOAD_PAUSE_MS);
    }
  }

  private show(machine: Machine): void {
    this.machine = machine;
    this.isMachineOld = false;
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
      const fromMs = this.heardAtMs;
      void keptStore.put([
        { key: 'shop', value: shop, fromMs },
        { key: 'floor', value: floor, fromMs },
      ]);
    } catch {
      window.setTimeout(() => void this.retryAll(), RELOAD_PAUSE_MS);
    }
    await machine;
  }

  /** As with a machine: when the line is lost, its opening loads everything. */
  private async retryAll(): Promise<void> {
    if (this.link === 'open') await this.reload();
  }

  /** What the device kept, as long as the server has said nothing. */
  private async showKept(): Promise<void> {
    const [shop, floor] = await Promise.all([keptStore.get<Shop>('shop'), keptStore.get<Floor>('floor')]);
    if (this.shop !== null || shop === null || floor === null) return;
    this.shop = shop.value;
    this.machines = floor.value.machines;
    this.skewMs = Date.parse(floor.value.now) - floor.fromMs;
    this.heardAtMs = floor.fromMs;
  }

  private async showKeptMachine(key: string): Promise<void> {
    const kept = await keptStore.get<Machine>(`machine/${key}`);
    if (kept === null || this.wanted !== key || this.machine !== null || this.refusal !== '') return;
    this.machine = kept.value;
  }

  private hear(event: string, data: unknown): void {
    this.heardAtMs = Date.now();
    if (event === 'machine') this.take(data as FloorMachine);
    else if (event === 'plants') this.tellPlants();
    else this.changes += 1;
    if (event === 'stores') this.tellStores();
    if (event !== 'tasks') return;
    const { machine } = data as { machine: string };
    this.tellChange(machine);
    if (machine === this.wanted) void this.reloadMachine();
    for (const listener of this.tasksListeners) listener(machine);
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
