// The shop's own titles for its keys.

import { live } from '../wire/live.svelte';

/** The title of a counter as it stands inside a sentence: "operating"; an unknown key says itself. */
export function counterTitle(key: string): string {
  const word = live.shop?.counter_words.find((one) => one.key === key);
  return (word?.title ?? key).toLowerCase();
}

export function kindTitle(key: string): string {
  return live.shop?.kinds.find((kind) => kind.key === key)?.title ?? key;
}

export function cellTitle(key: string): string {
  return live.shop?.cells.find((cell) => cell.key === key)?.title ?? key;
}
