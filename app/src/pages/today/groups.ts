// What has to be decided, in groups that can be read at half past six: the groups in the order of their most costly
// item, the items in the order that the server gave them.

import type { TodayItem } from '../../wire/contract';

export const GROUPS = [
  'finding',
  'shelf',
  'kit',
  'order',
  'overdue',
  'due',
  'soon',
  'reading',
  'counter',
  'round',
  'stop',
  'stray',
  'interval',
  'copies',
] as const;
export type GroupName = (typeof GROUPS)[number];

export function groupOf(item: TodayItem): GroupName {
  if (item.kind !== 'task') return item.kind;
  const state = item.task?.state;
  return state === 'overdue' || state === 'due' ? state : 'soon';
}

export interface Group {
  name: GroupName;
  items: TodayItem[];
}

export function grouped(items: readonly TodayItem[]): Group[] {
  const names = [...new Set(items.map(groupOf))];
  return names.map((name) => ({ name, items: items.filter((item) => groupOf(item) === name) }));
}

export interface DueDay {
  /** The most likely day; the earliest is today. */
  on: string;
  items: TodayItem[];
  machines: number;
  minutes: number;
}

/** Tasks that fall due in the next days, by their most likely day. */
export function byDay(items: readonly TodayItem[]): DueDay[] {
  const days = [...new Set(items.map((item) => item.forecast?.median ?? ''))].sort();
  return days.map((on) => {
    const own = items.filter((item) => (item.forecast?.median ?? '') === on);
    const minutes = own.reduce((sum, item) => sum + (item.task?.minutes ?? 0), 0);
    return { on, items: own, machines: new Set(own.map((item) => item.machine)).size, minutes };
  });
}

/** The same for the same thing, however often it is loaded. */
export const keyOf = (item: TodayItem): string =>
  [
    item.kind,
    item.machine,
    item.finding?.id,
    item.task?.key,
    item.rhythm,
    item.stop?.id,
    item.part?.kind,
    item.part?.task,
    item.reading?.task,
    item.reading?.what,
    item.order?.supplier ?? '',
    item.kit?.stop,
    item.shelf?.part.number,
  ]
    .filter(Boolean)
    .join('/');
