import { afterEach, expect, test } from 'vitest';
import type { Forecast } from '../wire/contract';
import { spoken } from '../words/language.svelte';
import { forecastShort, forecastWords, kindOf } from './forecast_words';

const range: Forecast = {
  first: '2027-01-05',
  median: '2027-01-14',
  last: '2027-02-02',
  overdue_median: '2027-02-20',
  leads: 'operating',
};
const never: Forecast = { first: null, median: null, last: null, overdue_median: null, leads: 'operating' };

afterEach(() => (spoken.name = 'en'));

test('a range is said with the year once', () => {
  expect(forecastWords(range, 'in hand')).toBe(
    'most likely 14 January 2027, with 80\u00a0% between 5 January and 2 February',
  );
  expect(forecastShort(range, 'in hand')).toBe('14 Jan 2027 (80\u00a0%: 5 Jan to 2 Feb)');
});

test('a range over the turn of a year says both years', () => {
  expect(forecastWords({ ...range, first: '2026-12-20' }, 'coming')).toContain(
    'between 20 December 2026 and 2 February',
  );
});

test('a calendar date has no range', () => {
  const exact = { ...range, first: '2027-01-14', last: '2027-01-14' };
  expect(forecastWords(exact, 'in hand')).toBe('due on 14 January 2027');
  expect(forecastShort(exact, 'in hand')).toBe('14 Jan 2027');
});

test('what is due now has no date', () => {
  expect(forecastWords(range, 'overdue')).toBe('overdue');
  expect(forecastShort(range, 'due')).toBe('');
});

test('never, an open end and a refusal are said', () => {
  expect(forecastWords(never, 'in hand')).toBe('not due within ten years');
  expect(forecastWords({ ...never, first: '2030-05-01' }, 'in hand')).toMatch(/hardly within ten years.*1 May 2030/);
  expect(forecastWords({ ...range, last: null }, 'in hand')).toMatch(/^most likely 14 January 2027.*5 January/);
  expect(forecastWords({ ...never, refused: 'No day yet.' }, 'in hand')).toBe('no forecast: No day yet.');
  expect(kindOf({ ...never, refused: 'No day yet.' }, 'in hand')).toBe('refused');
});

test('German says the same', () => {
  spoken.name = 'de';
  expect(forecastWords(range, 'in hand')).toBe(
    'am ehesten am 14. Januar 2027, zu 80\u00a0% zwischen 5. Januar und 2. Februar',
  );
});
