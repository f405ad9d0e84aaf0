// What is laid out for a task or a service, while a person writes it: one text a field of each line.

import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { KitLine, Kits, TaskKit } from '../../wire/contract';
import { say } from '../../words/words';

interface KitTyped {
  /** The part's number. */
  part: string;
  quantity: string;
}

export interface KitDraftLine extends KitTyped {
  /** What the task calls it and measures it in, where it has that from there; '' in a new line. */
  name: string;
  unit: string;
}

/** One thing for which something is laid out. */
export interface KitOf {
  kind: string;
  machine?: string;
  task?: string;
  service?: string;
  /** As people call it. */
  title: string;
  lines: TaskKit['lines'];
  /** Somebody laid it down; else it is what the task names. */
  isLaidDown: boolean;
}

const sameThing = (a: Pick<KitOf, 'kind' | 'machine' | 'task' | 'service'>, b: typeof a): boolean =>
  a.kind === b.kind && a.machine === b.machine && a.task === b.task && a.service === b.service;

type Titled = (part: string) => { title: string; unit: string };

/** Everything for which something is laid out or may be, by kind of machine, services before tasks.
 * @param titled what a part is called and measured in */
export function kitsByKind(kits: Kits, titled: Titled, serviceTitle: (one: Kits['services'][number]) => string) {
  const laidDown = (one: Pick<KitOf, 'kind' | 'machine' | 'task' | 'service'>) =>
    kits.kits.find(
      (kit) =>
        sameThing({ kind: kit.kind ?? '', ...kit }, one) ||
        (kit.machine !== undefined && kit.machine === one.machine && kit.task === one.task),
    );
  const linesOf = (lines: readonly KitLine[]): TaskKit['lines'] =>
    lines.map(({ part, quantity }) => ({ part, quantity, name: titled(part).title, unit: titled(part).unit }));
  const services: KitOf[] = kits.services.map((one) => {
    const kit = laidDown({ kind: one.kind, service: one.service });
    return {
      ...{ kind: one.kind, service: one.service, title: serviceTitle(one) },
      ...{ lines: linesOf(kit?.lines ?? []), isLaidDown: kit !== undefined },
    };
  });
  const tasks: KitOf[] = kits.tasks.map((one) => ({ ...one, isLaidDown: laidDown(one) !== undefined }));
  const kinds = [...new Set([...services, ...tasks].map(({ kind }) => kind))];
  return kinds.map((kind) => ({ kind, kits: [...services, ...tasks].filter((one) => one.kind === kind) }));
}

export const kitDraft = (kit: KitOf): KitDraftLine[] =>
  kit.lines.map(({ part = '', quantity, name, unit }) => ({ part, quantity: typed(quantity), name, unit }));

/** By line: part.0, quantity.0 ...; empty when nothing is wrong. */
export function kitTroubles(lines: readonly KitTyped[], numbers: readonly string[]): Record<string, string> {
  const wrongs: Record<string, string> = {};
  lines.forEach(({ part, quantity }, index) => {
    const number = part.trim();
    if (number === '') wrongs[`part.${index}`] = say('form.required');
    else if (!numbers.includes(number)) wrongs[`part.${index}`] = say('kits.no_part', { part: number });
    else if (lines.findIndex((one) => one.part.trim() === number) < index) wrongs[`part.${index}`] = say('kits.twice');
    const wrong = numberTrouble(quantity, { aboveZero: true });
    if (wrong !== '') wrongs[`quantity.${index}`] = wrong;
  });
  return wrongs;
}

/** Only for lines without troubles. */
export const kitLines = (lines: readonly KitTyped[]): KitLine[] =>
  lines.map(({ part, quantity }) => ({ part: part.trim(), quantity: numberIn(quantity) }));
