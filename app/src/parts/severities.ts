// The severities of a finding, the most severe first.

import type { Severity } from '../wire/contract';

export const SEVERITIES: readonly Severity[] = ['stop the machine', 'before next shift', 'at the next stop', 'watch'];

/** The most severe of several; null where there is none. */
export function mostSevere(severities: readonly Severity[]): Severity | null {
  return SEVERITIES.find((severity) => severities.includes(severity)) ?? null;
}
