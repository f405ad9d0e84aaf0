import { afterEach, describe, expect, test } from 'vitest';
import type { Entry } from '../wire/contract';
import { spoken } from '../words/language.svelte';
import { entryWords, strayWords } from './entry_words';
import { judgementOf } from './judge';

const entry = (more: Partial<Entry>): Entry => ({
  id: '01941f29-7c00-7aaa-8bbb-123456789abc',
  ordinal: 7,
  kind: 'task done',
  machine: 'm01',
  by: 'Ada Brandt',
  at: '2026-03-02T06:00:00Z',
  happened_at: '2026-03-02T06:00:00Z',
  says: 'as the server says it',
  ...more,
});

const air = {
  check: 'air/supply air',
  kind: 'reading' as const,
  title: 'Read the air',
  value: 5.2,
  unit: 'bar',
  state: 'warning' as const,
  limit: 5.5,
};

const gauge = { check: 'air/supply air', kind: 'reading' as const, title: 'Read the air' };
const topUp = {
  ...{ check: 'oil', kind: 'top up' as const, title: 'Way oil', answer: 'as it should be' as const },
  ...{ quantity: 0.5, quantity_unit: 'l' },
};

afterEach(() => (spoken.name = 'en'));

describe('an entry', () => {
  test.each<[Partial<Entry>, string, string]>([
    [{ kind: 'task done', told: { title: 'Lamp' } }, 'Lamp: done', 'Lamp: erledigt'],
    [
      { kind: 'task changed', told: { title: 'Lamp', version: 3 } },
      'Lamp: changed (version 3)',
      'Lamp: geändert (Fassung 3)',
    ],
    [{ kind: 'undone', told: { title: 'Lamp' } }, 'taken back: Lamp: done', 'zurückgenommen: Lamp: erledigt'],
    [
      { kind: 'round begun', rhythm: 'shift', told: { checks: 1 } },
      'round begun (each shift), 1 check',
      'Rundgang begonnen (jede Schicht), 1 Prüfpunkt',
    ],
    [
      { kind: 'check answered', answers: [air] },
      'Read the air: supply air: 5.2\u00a0bar is below the warning limit of 5.5\u00a0bar',
      'Read the air: supply air: 5,2\u00a0bar ist unter der Warngrenze von 5,5\u00a0bar',
    ],
    [
      { kind: 'check answered', answers: [{ ...gauge, answer: 'not so' }] },
      'Read the air: cannot be read',
      'Read the air: nicht ablesbar',
    ],
    [{ kind: 'check answered', answers: [topUp] }, 'Way oil: done, 0.5\u00a0l', 'Way oil: erledigt, 0,5\u00a0l'],
    [
      { kind: 'finding made', told: { severity: 'stop the machine', what: 'Smoke' } },
      'finding (stop the machine): Smoke; the lead, or the person whom the shop names, decides whether it runs',
      'Befund (Maschine stillsetzen): Smoke; ob sie läuft, entscheidet die Leitung der Instandhaltung oder wen der Betrieb dafür nennt',
    ],
    [
      { kind: 'finding changed', told: { title: 'Leak', owner: '', due_on: '2026-03-05', severity: 'watch' } },
      'Leak: severity watch; no owner; due day 5 March 2026',
      'Leak: Schwere: beobachten; niemand mehr zuständig; zu erledigen bis 5. März 2026',
    ],
    [
      { kind: 'use announced', told: { use: { from: '2026-03-05', factor: 1.5 }, why: 'third shift' } },
      'from 5 March 2026 on 1.5 times the usual use: third shift',
      'vom 5. März 2026 an das 1,5-Fache der üblichen Nutzung: third shift',
    ],
    [
      {
        kind: 'hours read',
        told: {
          display: {
            counter: 'operating',
            display_h: 120.5,
            verdict: { code: 'display-first', texts: {}, numbers: { hours: 20.5 } },
          },
        },
      },
      'hour display read: 120.5\u00a0h (operating). First reading: the display is 20.5 h ahead of the counter.',
      'Stundenanzeige abgelesen: 120,5\u00a0h (Betrieb). Erste Ablesung: Die Anzeige ist dem Zähler 20,5 h voraus.',
    ],
  ])('%j is said in both languages', (more, english, german) => {
    expect(entryWords(entry(more))).toBe(english);
    spoken.name = 'de';
    expect(entryWords(entry(more))).toBe(german);
  });

  test('that lacks a piece keeps the server’s sentence', () => {
    spoken.name = 'de';
    for (const kind of ['task done', 'undone', 'hours read', 'finding made', 'correction', 'use withdrawn'] as const)
      expect(entryWords(entry({ kind }))).toBe('as the server says it');
  });

  test('that is stray says why', () => {
    spoken.name = 'de';
    const stray_saying = { code: 'no-machine' as const, texts: { machine: 'm99' }, numbers: {} };
    expect(strayWords(entry({ stray: 'x', stray_saying }))).toBe('Es gibt keine Maschine „m99“.');
  });
});

test('a judgement names the limit of that time, or is the server’s', () => {
  expect(judgementOf({ ...air, state: 'action', value: 6, limit: 5.9 })).toMatch(/above the action limit of 5\.9/);
  const { check, kind, title, value, unit, state } = air;
  expect(judgementOf({ check, kind, title, value, unit, state, says: 'as the server says it' })).toBe(
    'as the server says it',
  );
});

describe('an entry about a stop', () => {
  test.each<[Partial<Entry>, string, string]>([
    [
      { kind: 'task done', told: { title: 'Filter' }, doing: { as_found: 'worn' } },
      'Filter: done; as found: worn',
      'Filter: erledigt; vorgefunden: verschlissen',
    ],
    [
      { kind: 'stop agreed', told: { stop: { on: '2026-03-07', shift: 'early', tasks: ['Filter', 'Seal'] } } },
      'stop of 7 March 2026, early: agreed: Filter, Seal',
      'Stillstand am 7. März 2026, early: vereinbart: Filter, Seal',
    ],
    [
      { kind: 'stop changed', told: { stop: { on: '2026-03-07', shift: '', to_on: '2026-03-09', to_shift: '' } } },
      'stop of 7 March 2026: changed: now the stop of 9 March 2026',
      'Stillstand am 7. März 2026: geändert: jetzt Stillstand am 9. März 2026',
    ],
    [
      { kind: 'stop withdrawn', told: { stop: { on: '2026-03-07', shift: 'early' }, why: 'a hot order' } },
      'stop of 7 March 2026, early: withdrawn: a hot order',
      'Stillstand am 7. März 2026, early: zurückgezogen: a hot order',
    ],
    [
      { kind: 'stop closed', told: { stop: { on: '2026-03-07', shift: 'early', done: 2, of: 3 } } },
      'stop of 7 March 2026, early: closed; 2 of 3 tasks done',
      'Stillstand am 7. März 2026, early: abgeschlossen; 2 von 3 Aufgaben erledigt',
    ],
  ])('is said in both languages', (more, english, german) => {
    expect(entryWords(entry(more))).toBe(english);
    spoken.name = 'de';
    expect(entryWords(entry(more))).toBe(german);
  });
});

describe('an entry about the stores', () => {
  test.each<[Partial<Entry>, string, string]>([
    [
      {
        kind: 'stock moved',
        told: {
          stores: { kind: 'taken', parts: 2, lines: [{ part: 'F-1', title: 'Filter', quantity: 2, unit: 'piece' }] },
        },
      },
      'taken: 2 pieces Filter (F-1) and 1 more',
      'entnommen: 2 Stück Filter (F-1) und 1 weiteres',
    ],
    [
      {
        kind: 'order changed',
        told: { stores: { supplier: 'Hollmann', confirmed_on: '2026-03-04', parts: 1, lines: [] } },
      },
      'order with Hollmann: confirmed for 4 March 2026',
      'Bestellung bei Hollmann: bestätigt für 4. März 2026',
    ],
    [
      { kind: 'kit kept', told: { stores: { parts: 0, lines: [] } } },
      'laid out for it: what the task names',
      'dafür bereitzulegen: was die Aufgabe nennt',
    ],
  ])('%j is said in both languages', (more, english, german) => {
    expect(entryWords(entry(more))).toBe(english);
    spoken.name = 'de';
    expect(entryWords(entry(more))).toBe(german);
  });
});
