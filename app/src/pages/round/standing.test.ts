import { describe, expect, test } from 'vitest';
import type { Entered, Row } from '../../outbox/entered';
import type { GivenAnswer, Round, RoundCheck, Turn } from '../../wire/contract';
import { answerOne, answerOthers } from './entering';
import type { Walker } from './entering';
import { nextOpen, ownWalks, standings, tally, turnNow, walkOf } from './standing';
import type { Ground } from './standing';

const at = (clock: string, day = 25) => `2026-11-${day}T${clock}:00.000Z`;
const ms = (clock: string, day = 25) => Date.parse(at(clock, day));

const check = (key: string, more: Partial<RoundCheck> = {}): RoundCheck => ({
  ...{ key, task: key, kind: 'look', title: `Look at ${key}`, steps: [], caution: '', last: [] },
  ...more,
});
const air = check('air', { kind: 'reading', reading: { what: 'air', unit: 'bar', action: { min: 5 } } });
const checks = [check('chips'), air, check('oil', { kind: 'top up', quantity_unit: 'l' })];

const turn = (answers: GivenAnswer[] = [], walks: Turn['walks'] = []): Turn => ({
  ...{ on: '2026-11-25', shift: 'early', state: 'open', answers, walks },
  begins_at: at('06:00'),
  ends_at: at('14:00'),
});
const round = (now: Turn | null): Round => ({ rhythm: 'shift', checks, now, past: [] });

const walker = (by: string, clock: string, walk: string | null = null): Walker => ({
  ...{ machine: 'm01', rhythm: 'shift', by, walk, checks: checks.map((one) => one.key), at: at(clock) },
});
const rowsOf = (entered: readonly Entered[], state: Row['state'] = 'waiting'): Row[] =>
  entered.map((one, index) => ({ ...one, order: index + 1, id: one.body.id, state }));
const ground = (rows: Row[], clock = '08:00'): Ground => ({
  ...{ rows, machine: 'm01', byServer: (one) => one, nowMs: ms(clock) },
});

const given = (key: string, by: string, clock: string): GivenAnswer => ({
  ...{ check: key, kind: 'look', title: '', answer: 'as it should be', by, at: at(clock), walk: `walk of ${by}` },
});

describe('what stands', () => {
  test('is the server’s, and over it what was entered here', () => {
    const now = turn([given('chips', 'Ada', '07:00')]);
    const rows = rowsOf(answerOne(walker('Jonas', '07:30'), air, { value: 4.5 }, null));
    const all = standings(round(now), now, ground(rows));
    expect(all.map((one) => one.given?.by)).toEqual(['Ada', 'Jonas', undefined]);
    expect(all[1]?.given).toMatchObject({ value: 4.5, state: 'action', where: 'waiting' });
    expect(tally(all)).toMatchObject({ answered: 2, of: 3 });
  });

  test('is the later of two answers, whoever gave it', () => {
    const now = turn([given('chips', 'Ada', '07:00')]);
    const before = rowsOf(answerOne(walker('Jonas', '06:30'), checks[0] as RoundCheck, { answer: 'not so' }, null));
    const after = rowsOf(answerOne(walker('Jonas', '07:30'), checks[0] as RoundCheck, { answer: 'not so' }, null));
    expect(standings(round(now), now, ground(before))[0]?.given?.by).toBe('Ada');
    expect(standings(round(now), now, ground(after))[0]?.given).toMatchObject({ by: 'Jonas', answer: 'not so' });
  });

  test('is the server’s where it knows already what was sent', () => {
    const entered = answerOne(walker('Jonas', '07:00'), checks[0] as RoundCheck, { answer: 'not so' }, null);
    const now = turn([{ ...given('chips', 'Jonas', '07:00'), answer: 'not so' }]);
    expect(standings(round(now), now, ground(rowsOf(entered, 'sent')))[0]?.given?.where).toBe('server');
  });

  test('is nothing where the server refused it, and the reason is told', () => {
    const entered = answerOne(walker('Jonas', '07:00'), checks[0] as RoundCheck, { answer: 'not so' }, null);
    const rows = rowsOf(entered).map((row) =>
      row.operation === 'answerChecks'
        ? { ...row, state: 'refused' as const, refusal: { status: 400, detail: 'no such check' } }
        : row,
    );
    const all = standings(round(turn()), turn(), ground(rows));
    expect(all[0]).toMatchObject({ given: null, refusal: { detail: 'no such check' } });
  });

  test('one press for the rest answers what was open, and reads no reading', () => {
    const rows = rowsOf(answerOthers(walker('Jonas', '07:00'), checks.slice(1)));
    const all = standings(round(turn()), turn(), ground(rows));
    expect(all.map((one) => one.given?.answer)).toEqual([undefined, 'as it should be', 'as it should be']);
    expect(all[1]?.given).not.toHaveProperty('value');
  });
});

describe('a walk', () => {
  const first = () => rowsOf(answerOne(walker('Jonas', '13:50'), checks[0] as RoundCheck, { answer: 'not so' }, null));

  test('begins with its first answer and goes on with the next', () => {
    const rows = first();
    const walks = ownWalks(round(turn()), turn(), ground(rows));
    const walk = walkOf('Jonas', walks);
    expect(walk).toBe(rows[0]?.id);
    expect(answerOne(walker('Jonas', '13:55', walk), air, { value: 6 }, null)).toHaveLength(1);
    expect(walkOf('Ada', walks)).toBeNull();
  });
  test('belongs to the turn in which it began, also when it ends later', () => {
    const rows = first();
    const late = rowsOf(answerOne(walker('Jonas', '14:20', rows[0]?.id ?? ''), air, { value: 6 }, null));
    expect(tally(standings(round(turn()), turn(), ground([...rows, ...late], '14:30'))).answered).toBe(2);
  });
  test('of the turn before does not count in the one that runs', () => {
    const next: Turn = { ...turn(), begins_at: at('22:00'), ends_at: at('06:00', 26) };
    expect(tally(standings(round(next), next, ground(first(), '23:00'))).answered).toBe(0);
  });
  test('counts where the turn that is kept is over and none is known to run', () => {
    const old = round({ ...turn(), begins_at: at('22:00', 24), ends_at: at('06:00') });
    expect(turnNow(old, ms('14:00'))).toBeNull();
    expect(tally(standings(old, null, ground(first(), '14:00'))).answered).toBe(1);
    expect(tally(standings(old, null, ground(first(), '23:59'))).answered).toBe(1);
  });
  test('is placed by the server’s clock where the device’s is two days ahead', () => {
    const ahead = 2 * 86_400_000;
    const rows = rowsOf(
      answerOne(
        { ...walker('Jonas', '07:00'), at: at('07:00', 27) },
        checks[0] as RoundCheck,
        { answer: 'not so' },
        null,
      ),
    );
    const off = { ...ground(rows), byServer: (one: number) => one - ahead };
    expect(tally(standings(round(turn()), turn(), off)).answered).toBe(1);
    expect(tally(standings(round(turn()), turn(), ground(rows))).answered).toBe(0);
  });
});

test('the next check is the first open one behind, else the first at all', () => {
  const now = turn([given('air', 'Ada', '07:00')]);
  const all = standings(round(now), now, ground([]));
  expect(nextOpen(all, null)).toBe('chips');
  expect(nextOpen(all, 'chips')).toBe('oil');
  expect(nextOpen(all, 'oil')).toBe('chips');
});

test('a finding goes with its check, its words stand in the answer, and nobody owns it unless said', () => {
  const found = { what: 'Chips at the wiper', severity: 'watch' as const, owner: '', photos: [] };
  const [begin, answer, finding] = answerOne(
    walker('Jonas', '07:00'),
    checks[0] as RoundCheck,
    { answer: 'not so' },
    found,
  );
  expect(begin.operation).toBe('beginWalk');
  expect(answer?.body).toMatchObject({
    walk: begin.body.id,
    answers: [{ note: 'Chips at the wiper', answer: 'not so' }],
  });
  expect(finding?.body).toMatchObject({ check: 'chips', walk: begin.body.id, severity: 'watch' });
  expect(finding?.body).not.toHaveProperty('owner');
});
