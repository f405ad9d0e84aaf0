import { beforeEach, expect, test, vi } from 'vitest';
import { Refused, Unreachable } from '../../wire/client';
import { DeskDeed } from './desk_deed.svelte';
import type { Signed } from './desk_deed.svelte';

vi.mock('../../wire/me.svelte', () => ({ me: { name: 'Ada' } }));

const sent: Array<{ id: string; what: string }> = [];
let isLost = false;
const order = (what: string) => (signed: Signed) => {
  sent.push({ id: signed.id, what });
  return isLost ? Promise.reject(new Unreachable('no answer')) : Promise.resolve(what);
};

beforeEach(() => {
  sent.length = 0;
});

test('what got no answer is sent again as it was until there is one, then what is new goes under a new id', async () => {
  const deed = new DeskDeed<string>();
  isLost = true;
  expect(await deed.send(order('4'))).toBeNull();
  deed.begin();
  expect(deed.trouble).toMatch(/exactly the same/);
  expect(await deed.send(order('6'))).toBeNull();
  isLost = false;
  expect(await deed.send(order('6'))).toBe('4');
  expect(sent.map(({ what }) => what)).toEqual(['4', '4', '4']);
  expect(new Set(sent.map(({ id }) => id)).size).toBe(1);
  expect(await deed.send(order('6'))).toBe('6');
  expect(sent[3]?.id).not.toBe(sent[0]?.id);
});

test('a no is an answer: what is mended goes under another id', async () => {
  const deed = new DeskDeed<string>();
  const problem = { type: 'about:blank', title: '', status: 409, detail: 'no', code: 'conflict' };
  const saying = { code: 'more-than-ordered', texts: { part: 'F-104' }, numbers: { came: 4, left: 2 } } as const;
  isLost = false;
  await deed.send(({ id }) => {
    sent.push({ id, what: 'refused' });
    return Promise.reject(new Refused({ ...problem, saying }));
  });
  expect(deed.refusal).toBe('more-than-ordered');
  deed.begin();
  expect([deed.refusal, deed.trouble]).toEqual(['', '']);
  expect(await deed.send(order('mended'))).toBe('mended');
  expect(sent[0]?.id).not.toBe(sent[1]?.id);
});
