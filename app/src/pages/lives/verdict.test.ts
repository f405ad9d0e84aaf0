import { expect, test } from 'vitest';
import type { Rehearsal } from '../../wire/contract';
import { verdict } from './verdict';

function played(cheaper: number, mean: number, se = 10, same_cost = 0): Rehearsal {
  const cost = { mean, se, q5: 0, q50: 0, q95: 0 };
  return { currency: 'EUR', cheaper, same_cost, difference: { cost } } as unknown as Rehearsal;
}

test.each([
  [played(0.88, -1234), 'In 9 of 10 years it costs less; 1\u202f234\u00a0€ a year on average.'],
  [played(0.99, -500), 'In nearly every year it costs less; 500\u00a0€ a year on average.'],
  [played(0.02, 800), 'In hardly any year it costs less; 800\u00a0€ a year more on average.'],
  [played(0.52, -15), 'In 5 of 10 years it costs less; on average there is no difference that these years could show.'],
  [played(0, 0, 0, 1), 'It costs the same in every year.'],
])('the verdict %#', (one, text) => expect(verdict(one)).toBe(text));
