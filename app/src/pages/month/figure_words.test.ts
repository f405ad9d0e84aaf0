import { afterEach, describe, expect, test } from 'vitest';
import { spoken } from '../../words/language.svelte';
import { boundWords, inUnit, sumWords, valueWords } from './figure_words';
import { monthsBack } from './months';

afterEach(() => (spoken.name = 'en'));

describe('a figure', () => {
  test('has a value in its unit', () => {
    expect(valueWords({ value: 0.81875 }, '1')).toBe('81.9\u00a0%');
    expect(valueWords({ value: 72 }, 'h')).toBe('72.0\u00a0h');
  });

  test('has a range where time is unknown, and a value where both ends read alike', () => {
    expect(valueWords({ value: null, low: 0.5, high: 0.84 }, '1')).toBe('50.0\u00a0% to 84.0\u00a0%');
    expect(valueWords({ value: null, low: 0.81871, high: 0.81872 }, '1')).toBe('81.9\u00a0%');
    expect(valueWords({ value: null, low: 3.25 }, 'h')).toBe('at least 3.3\u00a0h');
  });

  test('says why there is none, and the bound beside it', () => {
    const none = { value: null, none: 'no failure', at_least: 62.54 } as const;
    expect(valueWords(none, 'h')).toBe('no failure');
    expect(boundWords(none, 0.9)).toBe('With 90 % confidence the true one is at least 62.5\u00a0h.');
    expect(boundWords({ value: 1 }, 0.9)).toBe('');
  });

  test('is said in German', () => {
    spoken.name = 'de';
    expect(valueWords({ value: null, low: 0.5, high: 0.84 }, '1')).toBe('50,0\u00a0% bis 84,0\u00a0%');
    expect(inUnit(1234.5, 'h')).toBe('1\u202f234,5\u00a0h');
  });
});

test('sums have the unit that their name says', () => {
  const sums = { operating_h: 131, failure_cost: 520.4, failures: 2 } as Parameters<typeof sumWords>[0];
  expect(sumWords(sums, 'operating_h', 'EUR')).toBe('131.0\u00a0h');
  expect(sumWords(sums, 'failure_cost', 'EUR')).toBe('520\u00a0€');
  expect(sumWords(sums, 'failures', 'EUR')).toBe('2');
});

test('months go back over the year', () => {
  expect(monthsBack('2027-02', '2026-11')).toEqual(['2027-02', '2027-01', '2026-12', '2026-11']);
  expect(monthsBack('2026-11', '2026-11')).toEqual(['2026-11']);
  expect(monthsBack('x', '2026-11')).toEqual([]);
});
