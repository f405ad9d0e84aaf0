import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { enumsOf, readContract } from '../../steps/contract.mjs';
import { catalogues } from './catalogue';
import { en } from './en';
import { say } from './words';

const SOURCE = new URL('../', import.meta.url).pathname;
const keys = new Set(Object.keys(en));

function sources(): string[] {
  return readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(svelte|ts)$/.test(name) && !/\.test\.ts$|words\/en\.ts$/.test(name))
    .map((name) => readFileSync(join(SOURCE, name), 'utf8'));
}

const placeholders = (text: unknown) =>
  [...JSON.stringify(text).matchAll(/\{(\w+)\}/g)].map((found) => found[1]).filter((name) => name !== undefined);

describe('the catalogue', () => {
  test.each(Object.entries(catalogues))('has every key in %s, with the same values to fill in', (_, catalogue) => {
    expect(Object.keys(catalogue).sort()).toEqual([...keys].sort());
    for (const [key, text] of Object.entries(catalogue))
      expect(new Set(placeholders(text)), key).toEqual(new Set(placeholders(en[key as keyof typeof en])));
  });

  test('holds every key that the pages ask for by its name', () => {
    const asked = sources().flatMap((text) =>
      [...text.matchAll(/\bsay\(\s*'([^']+)'/g)].map((found) => found[1] ?? ''),
    );
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter((key) => !keys.has(key))).toEqual([]);
  });

  test('holds no key that nobody says', () => {
    const all = sources().join('\n');
    const families = [...all.matchAll(/`([\w.]+[._])\$\{/g)].map((found) => found[1] ?? '');
    const unsaid = [...keys].filter((key) => !all.includes(`'${key}'`) && !families.some((one) => key.startsWith(one)));
    expect(unsaid).toEqual([]);
  });

  test.each([
    ['TaskState', 'state'],
    ['Doing.state', 'doing'],
    ['Feed.state', 'feed'],
    ['Skill', 'skill'],
    ['Energy', 'energy'],
    ['WorkType', 'work'],
    ['HourReading.state', 'reading'],
    ['SettleEdit.settled_as', 'settled'],
    ['Entry.kind', 'entry'],
  ])('has a word for everything that %s can be', (name, family) => {
    const values = enumsOf(readContract())[name] ?? [];
    expect(values).not.toEqual([]);
    expect(values.filter((value) => !keys.has(`${family}.${value}`))).toEqual([]);
  });
});

test('say chooses the plural and fills in', () => {
  expect(say('bar.days_left', { count: 1200 })).toBe('1\u202f200 days left');
  expect(say('working.days', { count: -29 })).toBe('\u221229 days');
  expect(say('bar.days_left', { count: 1 })).toBe('1 day left');
  expect(say('bar.days_left', { count: 3 })).toBe('3 days left');
});
