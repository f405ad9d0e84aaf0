import { expect, test } from 'vitest';
import type { MachineRounds, Round, Turn, TurnState } from '../../wire/contract';
import { lineOf, ordered } from './order';

const NOW = Date.parse('2026-11-25T08:00:00Z');
const ground = { rows: [], byServer: (ms: number) => ms, nowMs: NOW };

const turn = (state: TurnState, hours: number): Turn => ({
  ...{ on: '2026-11-25', shift: 'early', state, walks: [], answers: [] },
  begins_at: new Date(NOW + hours * 3_600_000).toISOString(),
  ends_at: new Date(NOW + (hours + 8) * 3_600_000).toISOString(),
});
const check = { key: 'a', task: 'a', kind: 'look' as const, title: 'A', steps: [], caution: '', last: [] };

function line(machine: string, now: Turn | null, past: Turn[] = []) {
  const round: Round = { rhythm: 'shift', checks: [check], now, past };
  const rounds: MachineRounds = { machine, name: machine, kind: 'k', cell: 'c', points: [], rounds: [round] };
  return lineOf(rounds, round, ground);
}

test('open rounds come first, those missed last time before the others', () => {
  const lines = [
    line('none', null),
    line('walked', turn('walked', -2)),
    line('open', turn('open', -2), [turn('walked', -10)]),
    line('missed', turn('open', -2), [turn('missed', -10)]),
  ];
  expect(ordered(lines).map((one) => one.machine.machine)).toEqual(['missed', 'open', 'walked', 'none']);
});
test('a kept turn that is over by now does not run', () => {
  expect(line('old', turn('open', -9)).state).toBe('none runs');
});
test('missed and half walked turns are told, the walked ones not', () => {
  const past = [turn('missed', -10), turn('walked', -18), turn('half walked', -26)];
  expect(line('m', null, past).missed).toEqual([past[0], past[2]]);
});
