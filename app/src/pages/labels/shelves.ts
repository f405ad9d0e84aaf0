// The shelves' labels in the order of the walk along them: by place, and there by number.

import { folded } from '../../parts/folded';
import type { StoredPart, StoresPart } from '../../wire/contract';

const inOrder = new Intl.Collator('en', { numeric: true });

export const byPlace = (parts: readonly StoresPart[]): StoredPart[] =>
  parts
    .map(({ part }) => part)
    .sort((a, b) => inOrder.compare(a.place ?? '', b.place ?? '') || inOrder.compare(a.number, b.number));

/** Those whose place, number or title holds the text. */
export function shelvesWith(text: string, parts: readonly StoredPart[]): StoredPart[] {
  const wanted = folded(text);
  return parts.filter(({ place = '', number, title }) => folded(`${place}\n${number}\n${title}`).includes(wanted));
}
