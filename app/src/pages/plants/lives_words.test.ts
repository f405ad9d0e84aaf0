import { expect, test } from 'vitest';
import type { GroupPart } from '../../wire/contract';
import { bestWords, rangeWords, testWords, verdictWords } from './lives_words';

const part: GroupPart = {
  ...{ kind: 'lathe', task: 'belt', title: 'Change the belt', work: 'replace', unit: 'h' },
  ...{ plants: 2, lives: 30, failures: 12, verdict: 'differ' },
};

test('a verdict is a sentence', () => {
  expect(verdictWords(part)).toMatch(/^The plants differ\./);
  expect(verdictWords({ ...part, fails_most: 'North', fails_least: 'South' })).toMatch(
    /North sees more .* South fewer/,
  );
  expect(verdictWords({ ...part, verdict: 'no difference seen' })).toMatch(/With 12 failures/);
  expect(verdictWords({ ...part, verdict: 'no difference seen', failures: 400 })).toMatch(/holds for each plant/);
  expect(verdictWords({ ...part, verdict: 'unknown' })).toMatch(/no test/);
});

test('an interval that is not known is not the one of running to failure', () => {
  expect(bestWords(undefined, 'h')).toBe('not known');
  expect(bestWords({}, 'h')).toBe('run to failure');
  expect(bestWords({ interval: 1234.4 }, 'h')).toMatch(/^every 1.?234/);
});

test('a test says how it was made', () => {
  const made = { statistic: 3.396, degrees: 1, p: 0.0653, by: 'chi-squared', correction: 1 } as const;
  expect(testWords(made)).toBe('chi-squared 3.40 on 1: p 0.065');
  expect(testWords({ ...made, correction: 1.156 })).toMatch(/divided by 1.16/);
  expect(testWords({ ...made, by: 'permutation', p: 0.0002 })).toMatch(/^p below 0.001, by dealing/);
});

test('a range without an end says so', () => {
  expect(rangeWords({ lower: 2 }, String)).toBe('from 2, no end');
  expect(rangeWords({ lower: 2, upper: 3 }, String)).toBe('2 to 3');
});
