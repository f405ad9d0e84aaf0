// An order as a person places it: proposed lines with quantities that can be changed; a line without a quantity is left
// out.

import { isCounted } from '../../parts/part_amount';
import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { OrderEdit, OrderProposal } from '../../wire/contract';
import { say } from '../../words/words';

export interface OrderDraft {
  supplier: string;
  /** One a proposed line; '' or 0: not ordered. */
  quantities: string[];
  reference: string;
  confirmedOn: string;
  note: string;
}

export const draftOf = (order: OrderProposal): OrderDraft => ({
  supplier: order.supplier,
  quantities: order.lines.map(({ quantity }) => typed(quantity)),
  ...{ reference: '', confirmedOn: '', note: '' },
});

const isLeftOut = (quantity: string) => quantity.trim() === '' || quantity.trim() === '0';

/** By field: supplier, quantity.0 ...; empty when nothing is wrong. */
export function orderTroubles(order: OrderProposal, draft: OrderDraft): Record<string, string> {
  const wrongs: Record<string, string> = {};
  if (draft.supplier.trim() === '') wrongs['supplier'] = say('form.required');
  draft.quantities.forEach((quantity, index) => {
    const whole = isCounted(order.lines[index]?.unit ?? '');
    const trouble = isLeftOut(quantity) ? '' : numberTrouble(quantity, { aboveZero: true, whole });
    if (trouble !== '') wrongs[`quantity.${index}`] = trouble;
  });
  if (draft.quantities.every(isLeftOut)) wrongs['quantity.0'] = say('order.nothing');
  return wrongs;
}

/** Only for a draft without troubles. */
export function orderOf(order: OrderProposal, draft: OrderDraft): Omit<OrderEdit, 'id' | 'by'> {
  const lines = order.lines.flatMap(({ part, price }, index) => {
    const quantity = draft.quantities[index] ?? '';
    if (isLeftOut(quantity)) return [];
    return [{ part, quantity: numberIn(quantity), ...(price === undefined ? {} : { price }) }];
  });
  return {
    ...{ supplier: draft.supplier.trim(), lines },
    ...(draft.reference.trim() === '' ? {} : { reference: draft.reference.trim() }),
    ...(draft.confirmedOn === '' ? {} : { confirmed_on: draft.confirmedOn }),
    ...(draft.note.trim() === '' ? {} : { note: draft.note.trim() }),
  };
}
