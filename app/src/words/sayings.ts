// The server's sentences in the language of the pages: those of the contract's closed set are said from the catalogue,
// the rare others stay as the server wrote them.

import type { Problem, Saying } from '../wire/contract';
import { longDay } from './times';
import { say } from './words';

/** A text of a saying as it is read: dates are written out, words of the contract translated, names stay. */
function readable(name: string, text: string): string {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) return longDay(text);
  if (name === 'rhythm') return say(`rhythm.${text as 'shift'}`);
  if (name === 'skill') return say(`skill.${text as 'technician'}`);
  if (name === 'demand') return say(`demand.${text as 'safety'}`);
  if (name === 'settled_as') return say(`settled.${text as 'misread'}`);
  return text;
}

/** @param words the server's own sentence, for what the pages have no words for */
export function saidIn(saying: Saying | undefined, words: string): string {
  if (saying === undefined) return words;
  const texts = Object.entries(saying.texts).map(([name, text]) => [name, readable(name, text)] as const);
  // Of sentences that count days, they choose the form; all others bring their own count.
  const count = saying.numbers['days'] ?? 0;
  return say(`said.${saying.code}`, { count, ...saying.numbers, ...Object.fromEntries(texts) });
}

export const problemWords = (problem: Problem) => saidIn(problem.saying, problem.detail);
