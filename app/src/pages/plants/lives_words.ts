// What the group's pages about lives say in words.

import type { BestInterval, DifferenceTest, Ends, GroupPart } from '../../wire/contract';
import { number, plain, say } from '../../words/words';
import { ageWords } from '../lives/life_words';

/** Fewer failures than these hide all but great differences (docs/methods/life.md). */
const FEW_FAILURES = 40;
const P_TINY = 0.001;

/** Whether the plants differ, in a sentence. */
export function verdictWords(part: GroupPart): string {
  if (part.verdict === 'unknown') return say('group_lives.says_unknown');
  if (part.verdict === 'no difference seen')
    return part.failures < FEW_FAILURES
      ? say('group_lives.says_alike_few', { count: part.failures })
      : say('group_lives.says_alike');
  return part.fails_most === undefined || part.fails_least === undefined
    ? say('group_lives.says_differ')
    : say('group_lives.says_who', { most: part.fails_most, least: part.fails_least });
}

export const rangeWords = ({ lower, upper }: Ends, words: (value: number) => string): string =>
  upper === undefined
    ? say('lives.at_least', { least: words(lower) })
    : say('lives.between', { least: words(lower), most: words(upper) });

export function bestWords(best: BestInterval | undefined, unit: string): string {
  if (best === undefined) return say('group_lives.not_known');
  return best.interval === undefined
    ? say('lives.run_to_failure')
    : say('group_lives.every', { interval: ageWords(best.interval, unit) });
}

const chanceOf = (p: number) => (p < P_TINY ? say('group_lives.p_tiny') : number(p, 3));

/** What came out of a test. */
export function testWords(test: DifferenceTest): string {
  const { degrees } = test;
  const values = { statistic: number(test.statistic, 2), degrees, p: chanceOf(test.p) };
  if (test.by === 'permutation') return say('group_lives.by_permutation', values);
  return test.correction === 1
    ? say('group_lives.by_chi_squared', values)
    : say('group_lives.by_corrected', { ...values, correction: number(test.correction, 2) });
}

export const levelWords = (p: number): string => plain(p);
