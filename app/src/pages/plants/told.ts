// Plants of a group as tests tell of them.

import type { GroupMachine, GroupPlant } from '../../wire/contract';

export const machineTold = (key: string, more: Partial<GroupMachine> = {}): GroupMachine => ({
  ...{ key, name: `Lathe ${key}`, kind: 'lathe', doing: 'standing', feed: 'live', nearest: null, next_stop_on: null },
  ...{ coming: 0, due: 0, overdue: 0, findings: [] },
  ...more,
});

export const TOLD_AT = '2026-11-27T05:00:00Z';

export const plantTold = (key: string, machines: GroupMachine[], more: Partial<GroupPlant> = {}): GroupPlant => ({
  ...{ key, title: `Plant ${key}`, held: true, line: { as_of: TOLD_AT, machines, weeks: [], visits: [] } },
  ...more,
});
