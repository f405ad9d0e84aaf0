import { expect, test } from 'vitest';
import { byTitle, isUnknown, needsAttention, oldMs, summaryOf } from './summary';
import { machineTold, plantTold, TOLD_AT } from './told';

const told = Date.parse(TOLD_AT);

test('a plant’s line adds up what its machines say', () => {
  const summary = summaryOf(
    plantTold('north', [
      machineTold('m1', { doing: 'cutting', overdue: 2, due: 1, findings: ['stop the machine', 'watch'] }),
      machineTold('m2', { doing: 'running', coming: 3, next_stop_on: '2026-12-08', findings: ['watch'] }),
      machineTold('m3', { doing: 'spindle turning', feed: 'lost', next_stop_on: '2026-12-01' }),
    ]),
  );
  expect(summary).toMatchObject({ running: 2, overdue: 2, due: 1, coming: 3, lost: 1, nextStopOn: '2026-12-01' });
  expect(summary.findings).toEqual([
    { severity: 'stop the machine', count: 1 },
    { severity: 'watch', count: 2 },
  ]);
});

test('a line is old when it was told more than two minutes ago', () => {
  const plant = plantTold('north', []);
  expect(oldMs(plant, told + 120_000)).toBeNull();
  expect(oldMs(plant, told + 120_001)).toBe(120_001);
});

test('nobody knows of a plant that no server holds, that is old, or of which nothing was told', () => {
  expect(isUnknown(plantTold('a', []), told)).toBe(false);
  expect(isUnknown(plantTold('a', []), told + 200_000)).toBe(true);
  expect(isUnknown(plantTold('a', [], { held: false }), told)).toBe(true);
  expect(isUnknown(plantTold('a', [], { line: null }), told)).toBe(true);
});

test('coming tasks and no feed need nobody; what is due, found or lost does', () => {
  expect(needsAttention(machineTold('m1', { coming: 4, feed: 'none' }))).toBe(false);
  expect(needsAttention(machineTold('m1', { due: 1 }))).toBe(true);
  expect(needsAttention(machineTold('m1', { findings: ['watch'] }))).toBe(true);
  expect(needsAttention(machineTold('m1', { feed: 'lost' }))).toBe(true);
});

test('titles are in order as people count', () => {
  expect(['Hall 10', 'hall 2', 'Foundry'].sort(byTitle)).toEqual(['Foundry', 'hall 2', 'Hall 10']);
});
