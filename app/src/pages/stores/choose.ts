// Which parts are shown: by what is searched, by state, by supplier; in the order that the server gave them.

import { folded } from '../../parts/folded';
import type { StockState, StoresPart } from '../../wire/contract';

/** In the order in which they want somebody. */
export const STOCK_STATES: readonly StockState[] = [
  'count it',
  'short',
  'order today',
  'order soon',
  'enough',
  'not used',
];

export interface PartChoice {
  /** Number, title, place or a name that tasks use; '' for all. */
  find: string;
  state: StockState | '';
  supplier: string;
}

const textOf = ({ part }: StoresPart) =>
  folded([part.number, part.title, part.place ?? '', ...(part.names ?? [])].join('\n'));

export function chosenParts(parts: readonly StoresPart[], { find, state, supplier }: PartChoice): StoresPart[] {
  const wanted = folded(find);
  return parts.filter(
    (one) =>
      (state === '' || one.state === state) &&
      (supplier === '' || one.part.supplier === supplier) &&
      (wanted === '' || textOf(one).includes(wanted)),
  );
}

/** How many parts are in each state, those states left out in which none is. */
export function countStates(parts: readonly StoresPart[]): Array<{ state: StockState; count: number }> {
  return STOCK_STATES.map((state) => ({ state, count: parts.filter((one) => one.state === state).length })).filter(
    ({ count }) => count > 0,
  );
}
