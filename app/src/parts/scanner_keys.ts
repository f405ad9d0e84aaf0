// Listens on the whole page for a scanner that types, outside of text fields.

import { isTextField, TypedScan } from './typed_scan';

/** A letter typed on a list of choices chooses; a burst must not leave such a choice behind. */
interface Choice {
  list: HTMLSelectElement;
  value: string;
}

const choiceOf = (list: HTMLSelectElement): Choice => ({ list, value: list.value });

function putBack({ list, value }: Choice): void {
  if (list.value === value) return;
  list.value = value;
  list.dispatchEvent(new Event('change', { bubbles: true }));
}

/** @param go what to do with the address to which the label that was scanned leads */
export function listenForScanner(go: (address: string) => void): () => void {
  const scan = new TypedScan();
  let choice: Choice | null = null;

  function pressed(event: KeyboardEvent) {
    if (isTextField(event.target)) return;
    const isBegin = !scan.isWithin(event.timeStamp);
    if (isBegin) choice = event.target instanceof HTMLSelectElement ? choiceOf(event.target) : null;
    const address = scan.take(event);
    if (address === null) return;
    event.preventDefault();
    event.stopPropagation();
    if (choice !== null) putBack(choice);
    choice = null;
    go(address);
  }

  document.addEventListener('keydown', pressed, { capture: true });
  return () => document.removeEventListener('keydown', pressed, { capture: true });
}
