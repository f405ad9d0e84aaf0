import { expect, test } from 'vitest';
import type { Row } from '../outbox/entered';
import type { MachineRounds } from '../wire/contract';
import { shownBy } from './shown';

const NOW = Date.parse('2026-11-25T08:00:00Z');
const path = { machine: 'm01', rhythm: 'shift' as const };
const about = { machine: 'm01', what: '' };
const sign = (id: string) => ({ id, by: 'Ada', at: '2026-11-25T07:00:00Z' });

const begun = (id: string): Row => ({
  ...{ operation: 'beginWalk', path, about, body: { ...sign(id), checks: [] } },
  ...{ order: 1, id, state: 'sent', sentAtMs: NOW - 60_000 },
});
const answered = (id: string, walk: string): Row => ({
  ...{ operation: 'answerChecks', path, about, body: { ...sign(id), walk, others: false, answers: [] } },
  ...{ order: 2, id, state: 'sent', sentAtMs: NOW - 60_000 },
});
const fresh = (walk: string): MachineRounds[] => [
  {
    ...{ machine: 'm01', name: '', kind: '', cell: '', points: [] },
    rounds: [
      {
        ...{ rhythm: 'shift', checks: [], past: [] },
        now: {
          ...{ on: '', shift: '', begins_at: '', ends_at: '', state: 'open', answers: [] },
          walks: [{ walk, by: 'Ada', began_at: '', answered: 1, of: 2 }],
        },
      },
    ],
  },
];

test('a sent walk goes when the server’s rounds show it, with its answers', () => {
  const rows = [begun('w1'), answered('a1', 'w1')];
  expect(shownBy(rows, fresh('w1'), NOW)).toEqual(rows);
  expect(shownBy(rows, fresh('w2'), NOW)).toEqual([]);
});
test('what waits or was refused stays whatever the server shows', () => {
  const rows = [
    { ...begun('w1'), state: 'waiting' as const },
    { ...answered('a1', 'w1'), state: 'refused' as const },
  ];
  expect(shownBy(rows, fresh('w1'), NOW)).toEqual([]);
});
test('what was sent half a day ago is in no turn that runs', () => {
  expect(shownBy([begun('w1')], fresh('w2'), NOW + 13 * 3_600_000)).toHaveLength(1);
});
