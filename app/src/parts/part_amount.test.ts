import { afterEach, expect, test } from 'vitest';
import { spoken } from '../words/language.svelte';
import { partAmount, partName, unitBeside } from './part_amount';

afterEach(() => (spoken.name = 'en'));

test('what is counted has its word, what is measured its sign', () => {
  expect([partAmount(1, 'piece'), partAmount(2, 'set'), partAmount(0.4, 'l'), partAmount(3, 'roll')]).toEqual([
    '1 piece',
    '2 sets',
    '0.4\u00a0l',
    '3 rolls',
  ]);
  expect([unitBeside('piece'), unitBeside('kg')]).toEqual(['', 'kg']);
  spoken.name = 'de';
  expect([partAmount(2, 'piece'), partAmount(0.4, 'l')]).toEqual(['2 Stück', '0,4\u00a0l']);
});
test('a part is called by its title and number', () => {
  expect(partName({ number: 'F-104', title: 'Return filter' })).toBe('Return filter (F-104)');
});
