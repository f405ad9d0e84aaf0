import { expect, test } from 'vitest';
import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import { historyRows, unknownSpells } from './history';

const history = ['2026-10-23', '2026-10-24', '2026-10-27', '2026-10-28'].map((date, index) => ({ date, used: index }));

test('days that are left out are a spell of unknown days', () => {
  expect(unknownSpells(history).map(({ from, to }) => [dateOfNumber(from), dateOfNumber(to)])).toEqual([
    ['2026-10-25', '2026-10-26'],
  ]);
});

test('a history without holes has none, and none at all is no trouble', () => {
  expect(unknownSpells(history.slice(0, 2))).toEqual([]);
  expect(unknownSpells([])).toEqual([]);
  expect(historyRows([])).toEqual([]);
});

test('the table holds every day, unknown as unknown and zero as zero', () => {
  const rows = historyRows(history);
  expect(rows.map(({ used }) => used)).toEqual([3, 2, null, null, 1, 0]);
  expect(rows[0]?.date).toBe('2026-10-28');
  expect(rows).toHaveLength(dayNumber('2026-10-28') - dayNumber('2026-10-23') + 1);
});
