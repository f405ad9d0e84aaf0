// Which findings are shown and in which order: those that nobody owns first, then the most severe, then by due day.

import { SEVERITIES } from '../../parts/severities';
import type { Finding } from '../../wire/contract';

/** The owner of an address for findings that nobody owns. */
export const NOBODY = '-';

export interface FindingChoice {
  machine: string;
  /** A name, NOBODY, or '' for all. */
  owner: string;
}

const NEVER = '9999-12-31';

function compare(a: Finding, b: Finding): number {
  return (
    SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
    (a.due_on ?? NEVER).localeCompare(b.due_on ?? NEVER) ||
    a.at.localeCompare(b.at)
  );
}

export function fitting(findings: readonly Finding[], choice: FindingChoice): Finding[] {
  const owner = choice.owner === NOBODY ? null : choice.owner;
  return findings
    .filter((one) => choice.machine === '' || one.machine === choice.machine)
    .filter((one) => owner === '' || one.owner === owner)
    .sort(compare);
}

export interface OwnedApart {
  unowned: Finding[];
  owned: Finding[];
}

export function ownedApart(findings: readonly Finding[]): OwnedApart {
  return {
    unowned: findings.filter((one) => one.owner === null),
    owned: findings.filter((one) => one.owner !== null),
  };
}

/** @param today the plant's local date */
export function isOverdue(finding: Finding, today: string): boolean {
  return finding.state === 'open' && finding.due_on !== null && finding.due_on < today;
}
