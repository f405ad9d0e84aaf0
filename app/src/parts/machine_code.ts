// What a label's code says, as a camera reads it, a scanner types it or a person writes it: which machine is meant.

import type { FloorMachine } from '../wire/contract';

/** The machine's key in an address of a machine's page, of this server or of the one that the label was printed for:
 * "http://shop.example:8470/machine/m01" -> "m01"; null in any other text. */
export function keyInAddress(text: string): string | null {
  const found = /(?:^|\/\/[^/\s]+)\/machine\/([^/?#\s]+)\/?(?:[?#]\S*)?$/.exec(text.trim());
  if (found?.[1] === undefined) return null;
  try {
    return decodeURIComponent(found[1]);
  } catch {
    return null;
  }
}

const folded = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().trim();

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
