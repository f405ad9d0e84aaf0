// Which rounds are to be walked, the open ones first; and which were missed in the last days.

import { standings, tally, turnNow } from '../round/standing';
import type { Ground, Tally } from '../round/standing';
import type { MachineRounds, Round, Turn } from '../../wire/contract';

export type RoundState = 'open' | 'walked' | 'none runs';

export interface RoundLine {
  machine: MachineRounds;
  round: Round;
  turn: Turn | null;
  state: RoundState;
  tally: Tally;
  /** Turns of the last seven days that nobody walked to their end, the latest first. */
  missed: Turn[];
}

export const STATES: readonly RoundState[] = ['open', 'walked', 'none runs'];

function stateOf(turn: Turn | null, counts: Tally): RoundState {
  if (turn === null) return 'none runs';
  return turn.state === 'walked' || counts.answered === counts.of ? 'walked' : 'open';
}

/** The line of one round. Before the start-up there is no clock: its round can be walked at any time of the day. */
export function lineOf(machine: MachineRounds, round: Round, ground: Omit<Ground, 'machine'>): RoundLine {
  const turn = turnNow(round, ground.nowMs);
  const counts = tally(standings(round, turn, { ...ground, machine: machine.machine }));
  const missed = round.past.filter((one) => one.state === 'missed' || one.state === 'half walked');
  return { machine, round, turn, state: stateOf(turn, counts), tally: counts, missed };
}

const lastMissed = (line: RoundLine) => Number(line.missed[0] !== undefined && line.missed[0] === line.round.past[0]);

/** Open ones first; of these the ones whose last turn was missed, then in the shop's own order. */
export function ordered(lines: readonly RoundLine[]): RoundLine[] {
  const rank = (line: RoundLine) => STATES.indexOf(line.state) * 2 - (line.state === 'open' ? lastMissed(line) : 0);
  return lines.toSorted((a, b) => rank(a) - rank(b));
}
