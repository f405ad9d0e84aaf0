import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { enumsOf, readContract } from '../../steps/contract.mjs';
import type { Saying, SayingCode } from '../wire/contract';
import { en } from './en';
import { spoken } from './language.svelte';
import { saidIn } from './sayings';

const SERVER = new URL('../../../src/', import.meta.url).pathname;
const codes = enumsOf(readContract())['SayingCode'] ?? [];

const saying = (code: SayingCode, texts: Saying['texts'] = {}, numbers: Saying['numbers'] = {}): Saying => ({
  code,
  texts,
  numbers,
});

function serverSources(): string {
  return readdirSync(SERVER, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(cpp|h)$/.test(name) && !/_test\.cpp$/.test(name))
    .map((name) => readFileSync(join(SERVER, name), 'utf8'))
    .join('\n');
}

afterEach(() => (spoken.name = 'en'));

test('the server says every code of the contract, and no other', () => {
  const all = serverSources();
  const asSayings = [...all.matchAll(/\bSaying(?: \w+)?\{"([a-z-]+)"/g)].map((found) => found[1] ?? '');
  expect(asSayings.length).toBeGreaterThan(30);
  expect(asSayings.filter((code) => !codes.includes(code))).toEqual([]);
  expect(codes.filter((code) => !all.includes(`"${code}"`))).toEqual([]);
});

test('a saying is said in the language of the pages, with dates and words of the contract', () => {
  const retired = saying('task-retired-on', { title: 'Way wipers', date: '2026-03-02' });
  expect(saidIn(retired, 'x')).toBe('“Way wipers” was retired on 2 March 2026.');
  spoken.name = 'de';
  expect(saidIn(retired, 'x')).toBe('„Way wipers“ wurde am 2. März 2026 stillgelegt.');
  expect(saidIn(saying('no-round', { machine: 'm01', rhythm: 'shift' }), 'x')).toMatch(/jede Schicht\.$/);
  expect(saidIn(saying('undo-late', {}, { count: 10 }), 'x')).toMatch(/nur 10 Sekunden lang/);
  expect(saidIn(saying('display-fell', {}, { hours: 12.5 }), 'x')).toMatch(/um 12,5 h\.$/);
});

test('a sentence without a code stays the server’s', () =>
  expect(saidIn(undefined, 'line 3: no time')).toBe('line 3: no time'));

/** What the server fills in where it says a code: the names of its texts and numbers. */
function filledIn(code: string): string[] {
  const all = serverSources();
  const at = all.search(new RegExp(`Saying(?: \\w+)?\\{"${code}"`));
  const end = all.indexOf('},\n', at);
  return at < 0
    ? []
    : [...all.slice(at, Math.min(end, at + 400)).matchAll(/\{"(\w+)", /g)].map((found) => found[1] ?? '');
}

test('what a sentence wants filled in is what the server sends', () => {
  const wanting = [
    'no-task',
    'task-retired-on',
    'undo-not-own',
    'reading-unit',
    'feed-no-device',
    'no-check',
    'no-round',
  ];
  for (const code of wanting) {
    const wanted = [...JSON.stringify(en[`said.${code}` as keyof typeof en]).matchAll(/\{(\w+)\}/g)].map(
      ([, name]) => name,
    );
    expect(filledIn(code), code).toEqual(expect.arrayContaining(wanted));
  }
});
