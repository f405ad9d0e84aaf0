// Which plants are shown, in which order, and which machines of one that is open.

import { folded } from '../../parts/folded';
import type { GroupMachine, Severity } from '../../wire/contract';
import { byTitle, isUnknown, needsAttention } from './summary';
import type { Summary } from './summary';

export interface Choice {
  search: string;
  /** Only plants that need attention. */
  attention: boolean;
}

/** The plants whose title, key or machines hold the words that are searched. */
export function chosen(summaries: readonly Summary[], choice: Choice, nowMs: number): Summary[] {
  const search = folded(choice.search);
  return summaries.filter(
    (summary) =>
      summary.words.includes(search) &&
      (!choice.attention || isUnknown(summary.plant, nowMs) || summary.machines.some(needsAttention)),
  );
}

const countOf = (summary: Summary, severity: Severity) =>
  summary.findings.find((one) => one.severity === severity)?.count ?? 0;

/** What presses at a plant, the most pressing first. */
const PRESSING: ReadonlyArray<(summary: Summary, nowMs: number) => number> = [
  (summary, nowMs) => Number(isUnknown(summary.plant, nowMs)),
  (summary) => countOf(summary, 'stop the machine'),
  (summary) => summary.overdue,
  (summary) => countOf(summary, 'before next shift'),
  (summary) => summary.due,
  (summary) => summary.lost,
  (summary) => countOf(summary, 'at the next stop'),
  (summary) => summary.coming,
];

function compare(a: Summary, b: Summary, nowMs: number): number {
  for (const measure of PRESSING) {
    const difference = measure(b, nowMs) - measure(a, nowMs);
    if (difference !== 0) return difference;
  }
  return byTitle(a.plant.title, b.plant.title);
}

/** The most pressing first: what nobody knows of, then by the first of PRESSING in which two differ, then by title. */
export const byPressing = (summaries: readonly Summary[], nowMs: number): Summary[] =>
  [...summaries].sort((a, b) => compare(a, b, nowMs));

/**
 * In the order in which they stood before, so that no line moves away while one is read; those that are new come last.
 * @param before keys of plants
 */
export function asBefore(summaries: readonly Summary[], before: readonly string[]): Summary[] {
  const places = new Map(before.map((key, index) => [key, index]));
  const placeOf = ({ plant }: Summary) => places.get(plant.key) ?? before.length;
  return [...summaries].sort((a, b) => placeOf(a) - placeOf(b));
}

const pressure = (machine: GroupMachine): number =>
  (machine.findings.includes('stop the machine') ? 1e6 : 0) +
  (machine.findings.includes('before next shift') ? 1e4 : 0) +
  machine.overdue * 100 +
  machine.due;

/** The machines of an open plant that need attention, and those that are searched by name; the most pressing first. */
export function machinesShown({ machines, plant }: Summary, search: string): GroupMachine[] {
  const words = folded(search);
  const isSearched = ({ name, key }: GroupMachine) =>
    words !== '' &&
    !folded(`${plant.title}\n${plant.key}`).includes(words) &&
    folded(`${name}\n${key}`).includes(words);
  return machines
    .filter((machine) => needsAttention(machine) || isSearched(machine))
    .sort((a, b) => pressure(b) - pressure(a) || byTitle(a.name, b.name));
}
