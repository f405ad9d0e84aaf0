// A turn in words: "early shift, until 14:00", "Wed 25 Nov, until 22:00", "week from 23 Nov 2026".

import type { Rhythm, Turn } from '../../wire/contract';
import { live } from '../../wire/live.svelte';
import { day, moment } from '../../words/times';
import { say } from '../../words/words';

const zone = () => live.shop?.plant.zone ?? 'UTC';

/** A turn that runs. */
export function turnWords(turn: Turn, rhythm: Rhythm): string {
  const until = moment(turn.ends_at, zone(), live.now());
  if (rhythm === 'before start-up') return say('turn.start_up');
  return turn.shift === '' ? say('turn.until', { until }) : say('turn.shift_until', { shift: turn.shift, until });
}

/** A turn that is over: on which day, which shift. */
export function pastWords(turn: Turn): string {
  return turn.shift === '' ? day(turn.on) : `${day(turn.on)}, ${turn.shift}`;
}
