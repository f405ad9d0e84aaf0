// Where a round stands for whoever looks at this device: what the server said last, and over it what was entered here
// and is on its way. Nothing else is remembered of a walk, so it goes on where it was left after the tab was killed.
//
// A walk belongs to the turn in which it began, as the server has it (src/due/round_turns.h): also at most an hour early,
// however late it ends. Where no turn is known to run (what is kept is old, or none runs), the walks since the last one
// that is known count, of the last twelve hours.

import { judge } from '../../parts/judge';
import { isOf } from '../../outbox/entered';
import type { Refusal, Row } from '../../outbox/entered';
import type { CheckAnswer, GivenAnswer, Round, RoundCheck, Turn } from '../../wire/contract';

const EARLY_MS = 3_600_000;
const WITHOUT_TURN_MS = 12 * 3_600_000;
/** The server's moment of a sent entry and ours differ by the time on the way. */
const ON_THE_WAY_MS = 5_000;

export type Where = 'server' | 'waiting' | 'sent';

/** An answer as it stands, by whom, and whether the server has it. */
export interface Given extends GivenAnswer {
  by: string;
  at: string;
  walk: string;
  where: Where;
}

export interface CheckStanding {
  check: RoundCheck;
  given: Given | null;
  /** The server refused what was entered here. */
  refusal: Refusal | null;
}

/** What the device knows beside the round. */
export interface Ground {
  rows: readonly Row[];
  machine: string;
  /** Unix ms by the server's clock, of Unix ms by the device's. */
  byServer: (deviceMs: number) => number;
  nowMs: number;
}

/** The turn that runs, as far as the device knows; what is kept may be of yesterday. */
export function turnNow(round: Round, nowMs: number): Turn | null {
  return round.now !== null && Date.parse(round.now.ends_at) > nowMs ? round.now : null;
}

function enteredMs(row: Row, ground: Ground): number {
  return ground.byServer(Date.parse(row.body.at));
}

function beginsWithin(round: Round, turn: Turn | null, atMs: number, nowMs: number): boolean {
  if (turn !== null) return atMs >= Date.parse(turn.begins_at) - EARLY_MS && atMs < Date.parse(turn.ends_at);
  const known = round.now ?? round.past[0];
  return atMs >= Math.max(known ? Date.parse(known.ends_at) : 0, nowMs - WITHOUT_TURN_MS);
}

/** The walks of this device that belong to the turn, by their ids, with who walks. */
export function ownWalks(round: Round, turn: Turn | null, ground: Ground): ReadonlyMap<string, string> {
  const found = new Map((turn?.walks ?? []).map((walk) => [walk.walk, walk.by]));
  for (const row of ground.rows) {
    const isHere = isOf(row, 'beginWalk') && row.path.machine === ground.machine && row.path.rhythm === round.rhythm;
    if (isHere && beginsWithin(round, turn, enteredMs(row, ground), ground.nowMs)) found.set(row.id, row.body.by);
  }
  return found;
}

/** The latest walk of a person, to go on with; null: none yet. */
export function walkOf(by: string, walks: ReadonlyMap<string, string>): string | null {
  return [...walks].findLast(([, walker]) => walker === by)?.[0] ?? null;
}

function givenOf(check: RoundCheck, answer: CheckAnswer, row: Row<'answerChecks'>, ground: Ground): Given {
  const judged =
    check.reading && answer.value !== undefined
      ? judge(check.reading, answer.value)
      : { state: undefined, says: undefined };
  return {
    ...answer,
    ...(judged.state ? judged : {}),
    ...(check.quantity_unit ? { quantity_unit: check.quantity_unit } : {}),
    title: check.title,
    task: check.task,
    by: row.body.by,
    at: new Date(enteredMs(row, ground)).toISOString(),
    walk: row.body.walk,
    where: row.state === 'waiting' ? 'waiting' : 'sent',
  };
}

function onServer(turn: Turn | null, check: RoundCheck): Given | null {
  const found = turn?.answers.find((one) => one.check === check.key);
  if (found === undefined) return null;
  return { ...found, by: found.by ?? '', at: found.at ?? '', walk: found.walk ?? '', where: 'server' };
}

/** The later one; the server's own where it already knows what was sent. */
function later(server: Given | null, own: Given): Given {
  if (server === null) return own;
  const ahead = Date.parse(own.at) - Date.parse(server.at);
  return ahead > (own.where === 'sent' ? ON_THE_WAY_MS : 0) ? own : server;
}

/** Each check in walking order with what stands. */
export function standings(round: Round, turn: Turn | null, ground: Ground): CheckStanding[] {
  const walks = ownWalks(round, turn, ground);
  const rows = ground.rows.filter(
    (row): row is Row<'answerChecks'> => isOf(row, 'answerChecks') && walks.has(row.body.walk),
  );
  return round.checks.map((check) => {
    let given = onServer(turn, check);
    let refusal: Refusal | null = null;
    for (const row of rows) {
      const answer = row.body.answers.find((one) => one.check === check.key);
      if (answer === undefined) continue;
      if (row.state === 'refused') refusal = row.refusal ?? null;
      else {
        given = later(given, givenOf(check, answer, row, ground));
        refusal = null;
      }
    }
    return { check, given, refusal };
  });
}

export interface Tally {
  answered: number;
  of: number;
  /** How many each answered, the most first. */
  by: Array<{ name: string; count: number }>;
}

export function tally(all: readonly CheckStanding[]): Tally {
  const counts = new Map<string, number>();
  for (const { given } of all) if (given) counts.set(given.by, (counts.get(given.by) ?? 0) + 1);
  const by = [...counts].map(([name, count]) => ({ name, count })).sort((a, b) => b.count - a.count);
  return { answered: all.filter((one) => one.given !== null).length, of: all.length, by };
}

/** The next check to go to: the first without an answer behind this one, else the first at all; null: all are answered. */
export function nextOpen(all: readonly CheckStanding[], after: string | null): string | null {
  const open = all.filter((one) => one.given === null).map((one) => one.check.key);
  const place = all.findIndex((one) => one.check.key === after);
  const behind = all.slice(place + 1).find((one) => one.given === null);
  return behind?.check.key ?? open[0] ?? null;
}

/** Not as it should be, or beyond a limit. */
export function isFound({ given }: CheckStanding): boolean {
  return given?.answer === 'not so' || given?.state === 'action' || given?.state === 'warning';
}
