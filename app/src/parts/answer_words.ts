// What was answered at a check, as the logbook tells it; the judgement of a reading stands beside it.

import type { GivenAnswer } from '../wire/contract';
import { plainAmount, say } from '../words/words';

function wordOf({ kind, answer }: GivenAnswer): string {
  const isGood = answer === 'as it should be';
  if (kind === 'clean' || kind === 'top up') return say(isGood ? 'told.work_done' : 'told.work_not_done');
  if (kind === 'reading' && answer === 'not so') return say('answer.unreadable');
  return say(isGood ? 'answer.as it should be' : 'answer.not so');
}

/** "5.2 bar", "cannot be read", "done, 0.5 l" */
export function answerWords(given: GivenAnswer): string {
  if (given.value !== undefined) return plainAmount(given.value, given.unit ?? '');
  const filled = given.quantity === undefined ? [] : [plainAmount(given.quantity, given.quantity_unit ?? '')];
  return [wordOf(given), ...filled].join(', ');
}
