// What is left on the tasks of a machine, for the sentence of a mark: the Horizon itself knows dates only. Asked for
// when a mark of the machine has had attention for a moment, then remembered for a minute.

import { intervalOf, leaderOf, leftOf } from '../../parts/bar';
import { counterTitle } from '../../parts/titles';
import { client } from '../../wire/client';
import type { Task } from '../../wire/contract';

const ATTENTION_MS = 150;
const REMEMBERED_MS = 60_000;

class Lefts {
  private tasks = $state.raw(new Map<string, Task>());
  private readonly askedAtMs = new Map<string, number>();
  private timer = 0;

  /** "87.8 h left of 4 000 h operating"; empty while it is not known. */
  of(machine: string, task: string): string {
    const found = this.tasks.get(`${machine}/${task}`);
    const leader = found ? leaderOf(found) : undefined;
    return leader ? `${leftOf(leader)} ${intervalOf(leader, counterTitle)}` : '';
  }

  attend(machine: string): void {
    window.clearTimeout(this.timer);
    if (Date.now() - (this.askedAtMs.get(machine) ?? 0) < REMEMBERED_MS) return;
    this.timer = window.setTimeout(() => void this.load(machine), ATTENTION_MS);
  }

  private async load(machine: string): Promise<void> {
    this.askedAtMs.set(machine, Date.now());
    try {
      const { tasks } = await client.machine(machine);
      this.tasks = new Map([...this.tasks, ...tasks.map((task) => [`${machine}/${task.key}`, task] as const)]);
    } catch {
      this.askedAtMs.delete(machine); // the sentence does without
    }
  }
}

export const lefts = new Lefts();
