// The rounds of all machines as the server said them last, on the device before the Wi-Fi goes. Loaded when the line to
// the server opens, machine by machine when something changed there, and now and then, because turns begin and end.

import { outbox } from '../outbox/outbox.svelte';
import { client } from '../wire/client';
import type { MachineRounds } from '../wire/contract';
import { live } from '../wire/live.svelte';
import { me } from '../wire/me.svelte';
import { shownBy } from './shown';
import type { Kept } from './store';
import { keptStore } from './store';

const PREFIX = 'rounds/';
const REFRESH_MS = 5 * 60_000;
const RETRY_MS = 5_000;
/** Changes of one machine come in heaps; one load serves them all. */
const GATHER_MS = 400;

class KeptRounds {
  /** By machine, with the time from which it is. */
  private byMachine = $state.raw<ReadonlyMap<string, Kept<MachineRounds>>>(new Map());
  /** False where this browser does not keep them: they are gone with the page. */
  isKept = $state(true);
  /** False until what lies on the device has been read. */
  isRead = $state(false);

  readonly machines = $derived([...this.byMachine.values()].map((kept) => kept.value));
  /** Unix ms by the device's clock of the oldest part; null: nothing is there. */
  readonly fromMs = $derived(
    this.byMachine.size === 0 ? null : Math.min(...[...this.byMachine.values()].map((kept) => kept.fromMs)),
  );

  private readonly gathered = new Set<string>();
  private timer = 0;

  async start(): Promise<void> {
    live.whenOpened(() => void this.refresh());
    live.whenTasksChanged((machine) => this.gather(machine));
    window.setInterval(() => {
      if (me.isIn) void this.refresh();
    }, REFRESH_MS);
    const kept = await keptStore.all<MachineRounds>(PREFIX);
    if (this.byMachine.size === 0) this.byMachine = new Map(kept.map((row) => [row.value.machine, row]));
    this.isRead = true;
  }

  of(machine: string): MachineRounds | undefined {
    return this.byMachine.get(machine)?.value;
  }

  fromMsOf(machine: string): number | null {
    return this.byMachine.get(machine)?.fromMs ?? null;
  }

  /** Loads all; where there is no answer, what is there stays. */
  async refresh(): Promise<void> {
    const askedMs = Date.now();
    const sent = outbox.rows.filter((row) => row.state === 'sent');
    try {
      const { machines } = await client.rounds();
      const rows = machines.map((value) => ({ key: PREFIX + value.machine, value, fromMs: askedMs }));
      this.byMachine = new Map(rows.map((row) => [row.value.machine, row]));
      this.isKept = await keptStore.replace(PREFIX, rows);
      await outbox.drop(shownBy(sent, machines, askedMs));
    } catch {
      if (live.link === 'open') window.setTimeout(() => void this.refresh(), RETRY_MS);
    }
  }

  private gather(machine: string): void {
    this.gathered.add(machine);
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => void this.refreshGathered(), GATHER_MS);
  }

  private async refreshGathered(): Promise<void> {
    const machines = [...this.gathered];
    this.gathered.clear();
    for (const machine of machines) await this.refreshOne(machine);
  }

  private async refreshOne(machine: string): Promise<void> {
    const askedMs = Date.now();
    const sent = outbox.rows.filter((row) => row.state === 'sent');
    try {
      const value = (await client.roundsOf(machine)).machines.find((one) => one.machine === machine);
      if (value === undefined) return;
      const row = { key: PREFIX + machine, value, fromMs: askedMs };
      this.byMachine = new Map([...this.byMachine, [machine, row]]);
      this.isKept = await keptStore.put([row]);
      await outbox.drop(shownBy(sent, [value], askedMs));
    } catch {
      // The line's next opening loads everything.
    }
  }
}

export const rounds = new KeptRounds();
