// The forecasts of tasks, loaded once somebody wants to see them and kept fresh: all that is wanted every ten minutes and
// whenever something was missed, one machine at a time when that machine's tasks changed. Pages never wait for them.
// A page of one machine asks for that machine only; the Floor and the Horizon for all.

import { client } from './client';
import type { ClosedDay, Forecast, Horizon, HorizonMachine, PlantShift, Stop } from './contract';
import { live } from './live.svelte';
import { me } from '../wire/me.svelte';

const FRESH_MS = 10 * 60_000;
const GATHER_MS = 300;
const RETRY_MS = 20_000;
const EVERY = '';

class Forecasts {
  /** In the shop's own order; those of one machine while only that is wanted. */
  machines = $state.raw<HorizonMachine[]>([]);
  closed = $state.raw<ClosedDay[]>([]);
  today = $state('');
  shifts = $state.raw<PlantShift[]>([]);
  /** The agreed stops of `machines`, by when they begin. */
  stops = $state.raw<Stop[]>([]);
  /** All machines are there. */
  isWhole = $state(false);
  /** Why the last load failed; empty when it did not. */
  trouble = $state('');

  private readonly byTask = $derived(
    new Map(
      this.machines.flatMap((one) => one.tasks.map((task) => [`${one.machine}/${task.task}`, task.forecast] as const)),
    ),
  );
  /** What each page that is open wants: a machine's key, or every machine. */
  private wanted: string[] = [];
  private timer = 0;
  private readonly changed = new Set<string>();
  private gathering = 0;
  private endListening = () => {};

  /** Undefined while it is not known: not loaded, or a check of each shift or day. */
  of(machine: string, task: string): Forecast | undefined {
    return this.byTask.get(`${machine}/${task}`);
  }

  /** Keeps the forecasts of a machine, or of every one, fresh until the function that it gives is called. */
  follow(machine: string = EVERY): () => void {
    if (this.wanted.length === 0) this.endListening = live.onChange((changed) => this.hear(changed));
    this.wanted = [...this.wanted, machine];
    // While the line is not open yet, its opening says that everything may have changed.
    if (live.link === 'open') void this.load();
    return () => this.leave(machine);
  }

  async load(): Promise<void> {
    if (!me.may('horizon')) return;
    this.arm(FRESH_MS);
    try {
      if (this.wanted.includes(EVERY)) this.take(await client.horizon());
      else for (const machine of new Set(this.wanted)) this.merge(await client.horizon({ machine }));
      this.trouble = '';
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
      this.arm(RETRY_MS);
    }
  }

  /** What was agreed of a machine just now is asked for at once, not only when the server's line says so. */
  async reload(machine: string): Promise<void> {
    this.merge(await client.horizon({ machine }));
  }

  private leave(machine: string): void {
    const at = this.wanted.indexOf(machine);
    this.wanted = this.wanted.filter((_, index) => index !== at);
    if (this.wanted.length > 0) return;
    this.endListening();
    window.clearTimeout(this.timer);
  }

  private arm(ms: number): void {
    window.clearTimeout(this.timer);
    if (this.wanted.length > 0) this.timer = window.setTimeout(() => void this.load(), ms);
  }

  private hear(machine: string | null): void {
    if (machine === null) void this.load();
    else if (me.may('horizon') && (this.wanted.includes(EVERY) || this.wanted.includes(machine))) {
      this.changed.add(machine);
      window.clearTimeout(this.gathering);
      this.gathering = window.setTimeout(() => void this.loadChanged(), GATHER_MS);
    }
  }

  private async loadChanged(): Promise<void> {
    const keys = [...this.changed];
    this.changed.clear();
    try {
      for (const machine of keys) this.merge(await client.horizon({ machine }));
    } catch {
      await this.load();
    }
  }

  private take(horizon: Horizon): void {
    this.today = horizon.today;
    this.closed = horizon.closed;
    this.shifts = horizon.shifts;
    this.stops = horizon.stops;
    this.machines = horizon.machines;
    this.isWhole = true;
  }

  private merge(horizon: Horizon): void {
    this.today = horizon.today;
    const fresh = new Map(horizon.machines.map((one) => [one.machine, one]));
    const held = this.machines.map((one) => fresh.get(one.machine) ?? one);
    const isHeld = (machine: string) => held.some((one) => one.machine === machine);
    this.machines = [...held, ...horizon.machines.filter(({ machine }) => !isHeld(machine))];
    this.shifts = horizon.shifts;
    const others = this.stops.filter(({ machine }) => !fresh.has(machine));
    this.stops = [...others, ...horizon.stops].sort((a, b) => a.begins_at.localeCompare(b.begins_at));
  }
}

export const forecasts = new Forecasts();
