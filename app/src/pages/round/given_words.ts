// What stands at a check, in words and as the state whose shape is shown.

import { printReading } from '../../parts/judge';
import type { CheckKind, ReadingState, RoundCheck } from '../../wire/contract';
import { measured, say } from '../../words/words';
import type { CheckStanding, Given } from './standing';

export type FoundState = ReadingState | 'not so';

export function stateOf(given: Given): FoundState {
  if (given.answer === 'not so') return 'not so';
  return given.state ?? (given.kind === 'reading' ? 'not judged' : 'as it should be');
}

/** A task with several readings makes several checks; each is named by what is read. */
export function titleOf({ title, reading }: RoundCheck): string {
  return reading && reading.what !== title ? `${title}: ${reading.what}` : title;
}

const DONE_WORDS: Readonly<Partial<Record<CheckKind, 'check.done' | 'check.as_it_should_be'>>> = {
  clean: 'check.done',
  'top up': 'check.done',
};

/** "as it should be", "5.2 bar, warning", "filled in 0.5 l", "not read" */
export function givenWords({ check, given }: CheckStanding): string {
  if (given === null) return '';
  if (given.answer === 'not so') return say(given.kind === 'reading' ? 'check.unreadable' : 'check.not_so');
  if (given.value !== undefined) {
    const value = printReading({ what: check.reading?.what ?? '', unit: given.unit ?? '' }, given.value);
    return given.state ? `${value}, ${say(`judged.${given.state}`)}` : value;
  }
  if (given.kind === 'reading') return say('check.not_read');
  if (given.quantity === 0) return say('check.none_needed');
  if (given.quantity !== undefined)
    return say('check.filled', { quantity: `${measured(given.quantity)} ${given.quantity_unit ?? ''}`.trim() });
  return say(DONE_WORDS[given.kind] ?? 'check.as_it_should_be');
}
