// What a label's code says, as a camera reads it, a scanner types it or a person writes it: which machine is meant, or
// which part of the stores.

import { countAddress, machineAddress } from '../route.svelte';
import type { FloorMachine } from '../wire/contract';
import { folded } from './folded';

/** What follows a word in an address of this server or of the one that the label was printed for:
 * "http://shop.example:8470/machine/m01" -> "m01"; null in any other text. */
function keyAfter(word: 'machine' | 'stores', text: string): string | null {
  const found = new RegExp(`(?:^|//[^/\\s]+)/${word}/([^/?#\\s]+)/?(?:[?#]\\S*)?$`).exec(text.trim());
  if (found?.[1] === undefined) return null;
  try {
    return decodeURIComponent(found[1]);
  } catch {
    return null;
  }
}

export const keyInAddress = (text: string): string | null => keyAfter('machine', text);
/** The number of the part whose shelf's label has that address. */
export const partInAddress = (text: string): string | null => keyAfter('stores', text);

/** Where a label's address leads: to the machine's page, or to the part's, where it is counted. */
export function pageInAddress(text: string): string | null {
  const [machine, part] = [keyInAddress(text), partInAddress(text)];
  if (machine !== null) return machineAddress(machine);
  return part === null ? null : countAddress(part);
}

/** The machine that a text means: by address, by key, by name; undefined where there is none, or more than one. */
export function machineMeant(text: string, machines: readonly FloorMachine[]): FloorMachine | undefined {
  const key = keyInAddress(text);
  if (key !== null) return machines.find((machine) => machine.key === key);
  const wanted = folded(text);
  if (wanted === '') return undefined;
  const byKey = machines.find((machine) => folded(machine.key) === wanted);
  const byName = machines.filter((machine) => folded(machine.name) === wanted);
  return byKey ?? (byName.length === 1 ? byName[0] : undefined);
}

/** The number of the part that a text means, of those numbers: by address, also of a part that is not known here yet, or
 * by number in any letters. */
export function partMeant(text: string, numbers: readonly string[]): string | undefined {
  const wanted = folded(text);
  return partInAddress(text) ?? numbers.find((number) => wanted !== '' && folded(number) === wanted);
}
