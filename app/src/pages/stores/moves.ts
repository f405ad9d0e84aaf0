// What is moved in the stores, while a person says so: one draft a part, what is wrong with it, and what the outbox or
// the server takes.

import type { Entered } from '../../outbox/entered';
import { isCounted, partAmount } from '../../parts/part_amount';
import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { KitLine, MovedPart, MovementEdit, MovementKind, ReadyLine } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';
import { say } from '../../words/words';

export interface MoveLine {
  part: string;
  title: string;
  unit: string;
  /** Each one is followed by its serial number. */
  isSerial: boolean;
  quantity: string;
  /** With commas, spaces or lines between. */
  serials: string;
  /** Of what was received; '' for what its shelf life says. */
  bestBefore: string;
}

export interface MovedThing {
  part: string;
  title: string;
  unit: string;
  isSerial?: boolean;
}

/** @param quantity null: nobody has said so yet */
export const moveLine = (
  { part, title, unit, isSerial = false }: MovedThing,
  quantity: number | null = null,
): MoveLine => ({
  ...{ part, title, unit, isSerial, serials: '', bestBefore: '' },
  quantity: quantity === null ? '' : typed(quantity),
});

export const serialsIn = (text: string): string[] => text.split(/[\s,;]+/).filter((one) => one !== '');

/** Of a count the serial numbers are not asked for: it says how many there are. */
export const asksSerials = (line: MoveLine, kind: MovementKind): boolean => line.isSerial && kind !== 'counted';

/** What is wrong with the quantity, in words; '' when nothing is. @param mayBeNone whether 0 says something */
export const quantityTrouble = (line: MoveLine, mayBeNone: boolean): string =>
  numberTrouble(line.quantity, { aboveZero: !mayBeNone, whole: line.isSerial || isCounted(line.unit) });

/** What is wrong with the serial numbers; '' when nothing is, or while the quantity is wrong. */
export function serialsTrouble(line: MoveLine, kind: MovementKind): string {
  if (!asksSerials(line, kind) || quantityTrouble(line, true) !== '') return '';
  const [count, wanted] = [serialsIn(line.serials).length, numberIn(line.quantity)];
  return count === wanted ? '' : say('move.serials_count', { count, wanted });
}

/** Only for a line without troubles. */
export function movedPart(line: MoveLine, kind: MovementKind): MovedPart {
  return {
    ...{ part: line.part, quantity: numberIn(line.quantity) },
    ...(asksSerials(line, kind) ? { serials: serialsIn(line.serials) } : {}),
    ...(kind === 'received' && line.bestBefore !== '' ? { best_before: line.bestBefore } : {}),
  };
}

/** Lines of which something was moved. */
export const movedParts = (lines: readonly MoveLine[], kind: MovementKind): MovedPart[] =>
  lines.map((line) => movedPart(line, kind)).filter(({ quantity }) => quantity > 0 || kind === 'counted');

/** What a stop used of each, also nothing: then all that was taken of it comes back. */
export const usedParts = (lines: readonly MoveLine[]): MovedPart[] => lines.map((line) => movedPart(line, 'taken'));

/** What it was for; '' where nobody said so. */
export interface MovedFor {
  stop?: string;
  machine?: string;
  order?: string;
  why?: string;
}

/** "Taken: 2 pieces Return filter" */
export function movedWords(kind: MovementKind, lines: readonly MoveLine[]): string {
  const [first, ...more] = lines;
  if (first === undefined || more.length > 0)
    return say(`move.kept_${kind}`, { what: say('move.lines', { count: lines.length }) });
  return say(`move.kept_${kind}`, { what: `${partAmount(numberIn(first.quantity), first.unit)} ${first.title}` });
}

/** Only for lines without troubles. */
export function moveStock(
  kind: MovementKind,
  lines: readonly MoveLine[],
  by: string,
  of: MovedFor = {},
): Entered<'moveStock'> {
  const said = Object.fromEntries(
    Object.entries(of)
      .map(([name, value]) => [name, value.trim()] as const)
      .filter(([, value]) => value !== ''),
  );
  const body: Omit<MovementEdit, 'sent_at'> & { at: string } = {
    ...{ id: newId(), by, at: instantNow(), kind, lines: movedParts(lines, kind) },
    ...said,
  };
  return {
    operation: 'moveStock',
    path: {},
    body,
    about: { machine: of.machine ?? '', what: movedWords(kind, lines) },
  };
}

/** One draft a part, in the order in which they come: of a part in two lines the sum.
 * @param named for titles: a substitute that is no line's own part is called as what it stands in for */
function perPart(named: readonly ReadyLine[], of: (line: ReadyLine) => readonly KitLine[]): MoveLine[] {
  const found = new Map<string, { thing: MovedThing; quantity: number }>();
  for (const line of named) {
    for (const { part, quantity } of of(line)) {
      const own = named.find((one) => one.part === part) ?? line;
      const thing = { part, title: own.name, unit: own.unit, isSerial: own.serial ?? false };
      found.set(part, { thing, quantity: (found.get(part)?.quantity ?? 0) + quantity });
    }
  }
  return [...found.values()].map(({ thing, quantity }) => moveLine(thing, quantity));
}

/** What is still to be taken of a stop's kit: what is reserved for it, substitutes too. */
export const kitToTake = (lines: readonly ReadyLine[]): MoveLine[] => perPart(lines, (line) => line.reserved_of);

/** What a stop used, as far as one can know before somebody says so: what was taken for it; and of what was not, what is
 * planned for work that is done.
 * @param done keys of the tasks that are done; a line counts once all of its tasks are, so that work left undone books
 * nothing */
export const kitUsed = (lines: readonly ReadyLine[], done: readonly string[]): MoveLine[] =>
  perPart(lines, (line) => {
    if (line.part === undefined) return line.taken_of;
    const isDone = line.tasks.every((task) => done.includes(task));
    const lacks = isDone ? Math.max(0, line.quantity - line.taken) : 0;
    return [...line.taken_of, { part: line.part, quantity: lacks }];
  });

/** What was used as it is proposed now, except where somebody has written something else than was proposed before. */
export const usedAnew = (
  written: readonly MoveLine[],
  before: readonly MoveLine[],
  now: readonly MoveLine[],
): MoveLine[] =>
  now.map((line) => {
    const own = written.find(({ part }) => part === line.part);
    const isTyped = own?.quantity !== before.find(({ part }) => part === line.part)?.quantity;
    return own === undefined || !isTyped ? { ...line, serials: own?.serials ?? '' } : own;
  });
