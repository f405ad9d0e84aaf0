// The shop's own titles for its keys.

import { live } from '../wire/live.svelte';
import { say } from '../words/words';

const NAMED = ['powered', 'operating', 'loaded', 'spindle', 'axis', 'cutting'] as const;

/** A counter's name as it stands in a sentence after its amount: "12.5 h operating"; one of our words where there is one,
 * else the shop's own title. */
export function counterTitle(key: string): string {
  const named = NAMED.find((one) => one === key);
  if (named !== undefined) return say(`counter.name.${named}`);
  return live.shop?.counter_words.find((one) => one.key === key)?.title ?? key;
}

/** The same as a heading: "Operating". */
export function counterHeading(key: string): string {
  const title = counterTitle(key);
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** The title of a machine's counter; our own words where there are some, so that they follow the language. */
export function titleOf(counter: { key: string; title: string }): string {
  return NAMED.some((one) => one === counter.key) ? counterHeading(counter.key) : counter.title;
}

export function kindTitle(key: string): string {
  return live.shop?.kinds.find((kind) => kind.key === key)?.title ?? key;
}

export function cellTitle(key: string): string {
  return live.shop?.cells.find((cell) => cell.key === key)?.title ?? key;
}
