import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { enumsOf, readContract } from '../../steps/contract.mjs';
import { catalogues, LANGUAGES } from './catalogue';
import type { Language, Text } from './catalogue';
import { calendarWords, everyWords } from '../parts/calendar';
import { en as first } from './en';
import { later } from './english/later';
import { languageFor, spoken } from './language.svelte';
import { day, moment } from './times';
import { amount, say } from './words';

const SOURCE = new URL('../', import.meta.url).pathname;
const en = { ...first, ...later };
const keys = new Set(Object.keys(en));

function sources(): string[] {
  return readdirSync(SOURCE, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(svelte|ts)$/.test(name) && !/\.test\.ts$|words\/(en|de|english|german)\b/.test(name))
    .map((name) => readFileSync(join(SOURCE, name), 'utf8'));
}

/** What the first page is made of: the app's beginning and all that it imports and does not fetch later. */
function firstSources(file = join(SOURCE, 'main.ts'), seen = new Map<string, string>()): string[] {
  if (seen.has(file) || /words\/(en|de|english|german)\b/.test(file)) return [];
  const text = readFileSync(file, 'utf8');
  seen.set(file, text);
  for (const [, from = ''] of text.matchAll(/^\s*(?:import|export) (?!type)[^;]*?from '(\.[^']+)'/gm)) {
    const named = resolve(dirname(file), from);
    firstSources(existsSync(`${named}.ts`) ? `${named}.ts` : named, seen);
  }
  return [...seen.values()];
}

/** The keys that sources may ask for: by their name, or by a family's beginning. */
function askedIn(texts: readonly string[]): (key: string) => boolean {
  const all = texts.join('\n');
  const families = [...all.matchAll(/\x60([\w.]+[._])\$\x7b/g)].map((found) => found[1] ?? '');
  return (key) => all.includes(`'${key}'`) || families.some((one) => key.startsWith(one));
}

const placeholders = (text: unknown) =>
  [...JSON.stringify(text).matchAll(/\{(\w+)\}/g)].map((found) => found[1]).filter((name) => name !== undefined);

describe('the catalogue', () => {
  test('has every language', () => expect(Object.keys(catalogues).sort()).toEqual([...LANGUAGES].sort()));

  test.each(Object.entries(catalogues))('has every key in %s, with the same values to fill in', (_, catalogue) => {
    expect(Object.keys(catalogue).sort()).toEqual([...keys].sort());
    for (const [key, text] of Object.entries(catalogue))
      expect(new Set(placeholders(text)), key).toEqual(new Set(placeholders(en[key as keyof typeof en])));
  });

  test('has the plural forms that each language needs', () => {
    for (const language of LANGUAGES) {
      const forms = new Intl.PluralRules(language).resolvedOptions().pluralCategories;
      const texts: Text[] = Object.values(catalogues[language] ?? {});
      const plurals = texts.filter((text) => typeof text !== 'string');
      expect(plurals.length).toBeGreaterThan(10);
      for (const text of plurals) expect(Object.keys(text).sort()).toEqual([...forms].sort());
    }
  });

  // A translation that was forgotten shows as the English text once more.
  test('says in German what German says otherwise', () => {
    const same = [...keys].filter(
      (key) =>
        JSON.stringify(catalogues.de?.[key as keyof typeof en]) === JSON.stringify(en[key as keyof typeof en]) &&
        /[a-z]{3}/i.test(JSON.stringify(en[key as keyof typeof en]).replace(/\{\w+\}/g, '')),
    );
    expect(same).toEqual([
      'app.name',
      'app.title',
      'join.code',
      'join.kind_android',
      'join.kind_ios',
      'feed.live',
      'time.minutes',
      'signin.name',
      'signin.code',
      'enter.pin',
    ]);
  });

  test('holds every key that the pages ask for by its name', () => {
    const asked = sources().flatMap((text) =>
      [...text.matchAll(/\bsay\(\s*'([^']+)'/g)].map((found) => found[1] ?? ''),
    );
    expect(asked.length).toBeGreaterThan(50);
    expect(asked.filter((key) => !keys.has(key))).toEqual([]);
  });

  test('holds no key that nobody says', () => {
    const isAsked = askedIn(sources());
    expect([...keys].filter((key) => !isAsked(key))).toEqual([]);
  });

  test('has what the first page says among the texts that come with it', () => {
    const texts = firstSources();
    expect(texts.length).toBeGreaterThan(100);
    const isAsked = askedIn(texts);
    expect(Object.keys(later).filter((key) => isAsked(key))).toEqual([]);
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
    ['EntryKind', 'entry'],
    ['NaiveLoss.name', 'naive'],
    ['ChainBreak.kind', 'break'],
    ['Severity', 'severity'],
    ['CheckKind', 'check_kind'],
    ['Answer', 'answer'],
    ['ReadingState', 'judged'],
    ['Rhythm', 'rhythm'],
    ['TurnState', 'turn'],
    ['SayingCode', 'said'],
    ['EntryKind', 'entry_says'],
    ['MonthFigure.key', 'figure'],
    ['MonthFigure.key', 'figure_means'],
    ['MonthFigure.key', 'figure_formula'],
    ['FigureValue.none', 'figure_none'],
    ['Role', 'role'],
    ['Role', 'role_means'],
    ['Permission', 'may'],
    ['Session.way', 'way'],
    ['AccessNote.what', 'access_note'],
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

describe('the language', () => {
  afterEach(() => (spoken.name = 'en'));

  test('turns plurals, numbers and dates', () => {
    spoken.name = 'de';
    expect(say('bar.days_left', { count: 1 })).toBe('noch 1 Tag');
    expect(say('bar.days_left', { count: 1200 })).toBe('noch 1\u202f200 Tage');
    expect(amount(1234.5, 'h')).toBe('1\u202f234,5\u00a0h');
    expect(day('2026-02-28')).toBe('28. Feb. 2026');
    expect(calendarWords('12 months')).toBe('12 Monate');
    expect([everyWords('1 shift'), everyWords('2 weeks')]).toEqual(['jede Schicht', 'alle 2 Wochen']);
    expect(moment('2026-11-23T14:00:00Z', 'Europe/Berlin', new Date('2026-11-25T05:30:00Z'))).toMatch(/23\. Nov/);
  });

  test.each<[string[], Language]>([
    [['de-AT', 'en'], 'de'],
    [['fr', 'de', 'en'], 'de'],
    [['EN-gb', 'de'], 'en'],
    [['fr-CH'], 'en'],
    [[], 'en'],
  ])('of a device that wishes %j is %s', (wishes, language) => expect(languageFor(wishes)).toBe(language));
});
