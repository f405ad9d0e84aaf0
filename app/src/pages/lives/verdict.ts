// What years under two intervals come to in one plain sentence.

import type { Rehearsal } from '../../wire/contract';
import { money } from '../../words/money';
import { say } from '../../words/words';

/** Within so many standard errors of nothing a mean shows no difference. */
const ERRORS_MIN = 2;

function howOften(share: number): string {
  if (share > 0.95) return say('what_if.nearly_all');
  if (share < 0.05) return say('what_if.hardly_any');
  return say('what_if.of_ten', { count: Math.round(share * 10) });
}

export function verdict(played: Rehearsal): string {
  if (played.same_cost === 1) return say('what_if.same');
  const { mean, se } = played.difference.cost;
  const values = { how: howOften(played.cheaper), saving: money(Math.abs(mean), played.currency) };
  if (Math.abs(mean) <= ERRORS_MIN * se) return say('what_if.unsure', values);
  return say(mean < 0 ? 'what_if.less' : 'what_if.more', values);
}
