// What the pointer or the keys hold on the Horizon: a task's mark or an agreed stop, over a day. A task that is held over a
// day on which its machine has a stop goes into that stop.

import { addDays, movedTo, newTrial, trialOfStop } from '../planning/trial';
import type { Trial } from '../planning/trial';
import type { Planning } from '../planning/planning.svelte';
import type { HorizonMachine, PlantShift, Stop } from '../../wire/contract';

export type Held = { machine: HorizonMachine; task: string } | { stop: Stop };

/** The shop as far as moving needs it. */
export interface MoverGround {
  stops: readonly Stop[];
  shifts: readonly PlantShift[];
  today: string;
}

/** What a held thing becomes when it is set down on a day. */
export function heldOver(held: Held, on: string, { stops, shifts, today }: MoverGround): Trial {
  if ('stop' in held) return movedTo(trialOfStop(held.stop), on, shifts, today);
  const { machine, task } = held;
  const stop = stops.find((one) => one.machine === machine.machine && one.on === on && one.on >= today);
  if (stop === undefined) return movedTo(newTrial(machine, task, stops, shifts, today), on, shifts, today);
  const joined = trialOfStop(stop);
  return joined.tasks.includes(task) ? joined : { ...joined, tasks: [...joined.tasks, task] };
}

/** The day on which a held thing stands before it is moved. */
export function dayOf(held: Held, { shifts, today }: MoverGround): string {
  if ('stop' in held) return held.stop.on;
  return newTrial(held.machine, held.task, [], shifts, today).on;
}

export class Mover {
  private held: Held | null = null;
  private on = '';

  constructor(
    private readonly planning: Planning,
    private readonly ground: () => MoverGround,
  ) {}

  get isHolding(): boolean {
    return this.held !== null && this.planning.isMoving;
  }

  pick(held: Held): void {
    [this.held, this.on] = [held, dayOf(held, this.ground())];
    this.planning.begin(heldOver(held, this.on, this.ground()), true);
  }

  to(on: string): void {
    const { today } = this.ground();
    const day = on < today ? today : on;
    if (this.held === null || day === this.on) return;
    this.on = day;
    this.planning.hold(heldOver(this.held, day, this.ground()));
  }

  /** @param days below zero: earlier */
  by(days: number): void {
    this.to(addDays(this.on, days));
  }

  setDown(): void {
    this.held = null;
    this.planning.setDown();
  }

  leave(): void {
    this.held = null;
    this.planning.putBack();
  }

  /** What a key does to what is held; true where it did something. */
  press(key: string, isShifted: boolean): boolean {
    const days = isShifted ? 7 : 1;
    if (key === 'ArrowLeft') this.by(-days);
    else if (key === 'ArrowRight') this.by(days);
    else if (key === 'Enter' || key === ' ') this.setDown();
    else if (key === 'Escape') this.leave();
    else return false;
    return true;
  }
}
