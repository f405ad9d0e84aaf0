import { expect, test } from 'vitest';
import { emptyReading, readingDraft, readingEdit, readingTroubles, shownReading } from './reading_draft';
import type { ReadingDraft } from './reading_draft';

const reading = (more: Partial<ReadingDraft> = {}): ReadingDraft => ({
  ...emptyReading(),
  ...{ what: 'pressure', unit: 'bar' },
  ...more,
});
const wrongs = (...readings: ReadingDraft[]) =>
  Object.entries(readingTroubles(readings))
    .filter(([, trouble]) => trouble !== '')
    .map(([field]) => field);

test('limits take comma, point and any sign, and may be left out', () => {
  expect(wrongs(reading({ warningMin: '-0,5', actionMax: '6.25' }))).toEqual([]);
  expect(readingEdit(reading({ warningMin: '-0,5', actionMax: '6.25' }))).toEqual({
    ...{ what: 'pressure', unit: 'bar', warning: { min: -0.5 }, action: { max: 6.25 } },
  });
  expect(readingEdit(reading())).toEqual({ what: 'pressure', unit: 'bar' });
});

test('what the server would refuse is refused beside its field', () => {
  expect(wrongs(emptyReading())).toEqual(['readings.0.what', 'readings.0.unit']);
  expect(wrongs(reading({ warningMax: 'high' }))).toEqual(['readings.0.warningMax']);
  expect(wrongs(reading({ actionMin: '5', warningMin: '4' }))).toEqual(['readings.0.actionMin']);
  expect(wrongs(reading({ actionMax: '5', warningMax: '6' }))).toEqual(['readings.0.actionMax']);
  expect(wrongs(reading({ warningMin: '5', warningMax: '5' }))).toEqual(['readings.0.warningMax']);
  expect(wrongs(reading({ warningMin: '5', actionMax: '4' }))).toEqual(['readings.0.actionMax']);
  expect(wrongs(reading(), reading({ what: 'pressure ' }))).toEqual(['readings.1.what']);
  expect(wrongs(reading({ what: 'x'.repeat(61), unit: 'y'.repeat(21) }))).toEqual([
    'readings.0.what',
    'readings.0.unit',
  ]);
});

test('a reading survives being opened and saved, with all its digits', () => {
  const kept = { what: 'play', unit: 'mm', warning: { min: -0.0005, max: 1234.5 }, action: { max: 2000 } };
  const draft = readingDraft(kept);
  expect(wrongs(draft)).toEqual([]);
  expect(readingEdit(draft)).toEqual(kept);
  expect(shownReading(draft)).toBe('play mm (– / \u22120.0005 / 1234.5 / 2000)');
});
