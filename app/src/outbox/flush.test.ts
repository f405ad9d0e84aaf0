import { describe, expect, test } from 'vitest';
import type { Entered, Row } from './entered';
import { flush, outcomeOf, pauseAfter } from './flush';
import type { Outcome, Waiting } from './flush';

const about = { machine: 'm01', what: '' };
const sign = (id: string) => ({ id, by: 'Ada', at: '2026-11-25T07:00:00Z' });
const done = (id: string): Entered => ({
  ...{ operation: 'markDone', path: { machine: 'm01', task: 'oil' }, body: sign(id), about },
});
const picture = (id: string): Entered => ({ operation: 'keepPhoto', path: { photo: id }, body: sign(id), about });
const finding = (id: string, photo: string): Entered => ({
  ...{ operation: 'makeFinding', path: { machine: 'm01' }, about },
  body: { ...sign(id), what: 'x', severity: 'watch', photos: [{ id: photo, sha256: '' }] },
});

/** An outbox in memory. */
class Pile implements Waiting {
  rows: Row[];
  constructor(entered: Entered[]) {
    this.rows = entered.map((one, index) => ({ ...one, order: index + 1, id: one.body.id, state: 'waiting' }));
  }
  waiting = async () => this.rows.filter((row) => row.state === 'waiting');
  sent = async (row: Row) => void (this.rows = this.rows.filter((one) => one.id !== row.id));
  refused = async (row: Row) =>
    void (this.rows = this.rows.map((o) => (o.id === row.id ? { ...o, state: 'refused' } : o)));
}

const taken: Outcome = { is: 'taken', answer: {} };

/** Sends to a server that answers as given, else takes; tells in which order it was asked. */
async function sendAll(pile: Pile, answers: Record<string, Outcome> = {}) {
  const asked: string[] = [];
  const send = async (row: Row) => {
    asked.push(row.id);
    return answers[row.id] ?? taken;
  };
  return {
    delay: await flush(
      pile,
      () => 'Ada',
      send,
      () => undefined,
    ),
    asked,
    left: pile.rows.map((row) => row.id),
  };
}

describe('the flush', () => {
  test('sends all in order, one at a time', async () => {
    expect(await sendAll(new Pile([done('a'), done('b'), done('c')]))).toEqual({
      ...{ delay: null, asked: ['a', 'b', 'c'], left: [] },
    });
  });
  test('puts aside what is refused and goes on', async () => {
    const refused: Outcome = { is: 'refused', refusal: { status: 409, detail: 'no' } };
    const pile = new Pile([done('a'), done('b')]);
    expect(await sendAll(pile, { a: refused })).toEqual({ delay: null, asked: ['a', 'b'], left: ['a'] });
    expect(pile.rows[0]?.state).toBe('refused');
  });
  test.each(['unreachable', 'not signed in'] as const)('stops at the first that waits: %s', async (by) => {
    expect(await sendAll(new Pile([done('a'), done('b'), done('c')]), { b: { is: 'delayed', by } })).toEqual({
      ...{ delay: by, asked: ['a', 'b'], left: ['b', 'c'] },
    });
  });
  test('steps over one at which the server stumbles, and over what names it', async () => {
    const pile = new Pile([picture('p'), finding('f', 'p'), done('d')]);
    expect(await sendAll(pile, { p: { is: 'stumbled' } })).toEqual({
      ...{ delay: 'unreachable', asked: ['p', 'd'], left: ['p', 'f'] },
    });
  });
  test('leaves what another person entered, and says so', async () => {
    const [own, other] = [done('a'), done('b')];
    other.body.by = 'Ben';
    expect(await sendAll(new Pile([other, own]))).toEqual({ delay: 'of others', asked: ['a'], left: ['b'] });
  });
  test('takes in what is entered meanwhile', async () => {
    const pile = new Pile([done('a')]);
    const more = new Pile([done('b')]).rows;
    const asked: string[] = [];
    await flush(
      pile,
      () => 'Ada',
      async (row) => {
        asked.push(row.id);
        pile.rows.push(...more.splice(0));
        return taken;
      },
      () => undefined,
    );
    expect(asked).toEqual(['a', 'b']);
  });
});

test.each<[number, Outcome]>([
  [400, { is: 'refused', refusal: { status: 400, detail: 'why' } }],
  [404, { is: 'refused', refusal: { status: 404, detail: 'why' } }],
  [401, { is: 'delayed', by: 'not signed in' }],
  [403, { is: 'refused', refusal: { status: 403, detail: 'why' } }],
  [408, { is: 'delayed', by: 'unreachable' }],
  [429, { is: 'delayed', by: 'unreachable' }],
  [503, { is: 'delayed', by: 'unreachable' }],
  [507, { is: 'delayed', by: 'unreachable' }],
  [500, { is: 'stumbled' }],
])('an answer of %s means %j', (status, outcome) => expect(outcomeOf({ status, detail: 'why' })).toEqual(outcome));

test('an entry waits while its person has to set up a second factor', () => {
  const saying = { code: 'second-factor-needed', texts: {}, numbers: {} } as const;
  expect(outcomeOf({ status: 403, detail: 'why', saying })).toEqual({ is: 'delayed', by: 'not signed in' });
});

test('entering in the name of another is no mistake of the entry: it waits', () => {
  const saying = { code: 'not-you', texts: {}, numbers: {} } as const;
  expect(outcomeOf({ status: 403, detail: 'why', saying })).toEqual({ is: 'delayed', by: 'of others' });
});

test('the pauses grow to a minute and stay there', () => {
  expect([1, 2, 3, 6, 100].map(pauseAfter)).toEqual([2_000, 4_000, 8_000, 60_000, 60_000]);
});
