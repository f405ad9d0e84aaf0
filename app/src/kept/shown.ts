// What the outbox need not show any more, because the server's own rounds show it.

import { isOf } from '../outbox/entered';
import type { Row } from '../outbox/entered';
import type { MachineRounds } from '../wire/contract';

const SENT_STAYS_MS = 12 * 3_600_000;

/** Sent walks and answers that the fresh rounds show, or that are too old for any turn that runs. */
export function shownBy(rows: readonly Row[], fresh: readonly MachineRounds[], nowMs: number): Row[] {
  const walks = new Set(
    fresh.flatMap((one) => one.rounds.flatMap((round) => round.now?.walks ?? [])).map((w) => w.walk),
  );
  return rows.filter((row) => {
    if (row.state !== 'sent') return false;
    const walk = isOf(row, 'answerChecks') ? row.body.walk : row.id;
    return walks.has(walk) || nowMs - (row.sentAtMs ?? 0) > SENT_STAYS_MS;
  });
}
