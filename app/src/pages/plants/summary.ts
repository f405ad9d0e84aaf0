// What a plant's line on the page of plants says, worked out of its machines' short lines.

import { folded } from '../../parts/folded';
import { SEVERITIES } from '../../parts/severities';
import type { GroupMachine, GroupPlant, Severity } from '../../wire/contract';

/** What was told of a plant longer ago than this may not be so any more: its server tells every 15 s. */
const OLD_MS = 120_000;

export interface Summary {
  plant: GroupPlant;
  machines: readonly GroupMachine[];
  /** Machines on which a program runs. */
  running: number;
  /** Tasks of all machines. */
  overdue: number;
  due: number;
  coming: number;
  /** How many open findings there are of each severity, the most severe first; none of what there is none of. */
  findings: ReadonlyArray<{ severity: Severity; count: number }>;
  /** Machines whose feed is lost. */
  lost: number;
  /** The first day on which a machine has an agreed stop; null: none. */
  nextStopOn: string | null;
  /** Title and key, and the names and keys of its machines, as they are searched. */
  words: string;
}

const sum = (machines: readonly GroupMachine[], count: (machine: GroupMachine) => number) =>
  machines.reduce((total, machine) => total + count(machine), 0);

const runs = ({ doing }: GroupMachine) => doing === 'cutting' || doing === 'running';

function counted(severities: readonly Severity[]) {
  return SEVERITIES.map((severity) => ({
    severity,
    count: severities.filter((one) => one === severity).length,
  })).filter(({ count }) => count > 0);
}

/** The earliest of local dates. */
function earliest(dates: ReadonlyArray<string | null>): string | null {
  return dates.filter((date) => date !== null).sort()[0] ?? null;
}

export function summaryOf(plant: GroupPlant): Summary {
  const machines = plant.line?.machines ?? [];
  return {
    plant,
    machines,
    running: machines.filter(runs).length,
    overdue: sum(machines, (machine) => machine.overdue),
    due: sum(machines, (machine) => machine.due),
    coming: sum(machines, (machine) => machine.coming),
    findings: counted(machines.flatMap((machine) => machine.findings)),
    lost: machines.filter((machine) => machine.feed === 'lost').length,
    nextStopOn: earliest(machines.map((machine) => machine.next_stop_on)),
    words: folded([plant.title, plant.key, ...machines.flatMap(({ name, key }) => [name, key])].join('\n')),
  };
}

const collator = new Intl.Collator(undefined, { numeric: true });
/** In the order of titles or names: "Hall 2" before "Hall 10". */
export const byTitle = (a: string, b: string): number => collator.compare(a, b);

/**
 * How long ago its server told of the plant, in ms, where that is long; null where it is not, or never told.
 * @param nowMs Unix ms by the server's clock
 */
export function oldMs({ line }: GroupPlant, nowMs: number): number | null {
  const ageMs = line === null ? 0 : nowMs - Date.parse(line.as_of);
  return ageMs > OLD_MS ? ageMs : null;
}

/** Does nobody know how the plant stands now? */
export const isUnknown = (plant: GroupPlant, nowMs: number): boolean =>
  !plant.held || plant.line === null || oldMs(plant, nowMs) !== null;

/** Is there something on the machine that somebody has to do or decide? */
export const needsAttention = (machine: GroupMachine): boolean =>
  machine.overdue > 0 || machine.due > 0 || machine.findings.length > 0 || machine.feed === 'lost';
