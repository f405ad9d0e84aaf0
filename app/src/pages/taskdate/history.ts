// A counter's use by day as bars, and the spells of days that nobody knows: those are not zero.

import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { UsedDay } from '../../wire/contract';

export interface Spell {
  from: number;
  /** The last day of it. */
  to: number;
}

/** Days between the first and the last of the history that it does not hold. */
export function unknownSpells(history: readonly UsedDay[]): Spell[] {
  const days = history.map(({ date }) => dayNumber(date)).sort((a, b) => a - b);
  return days.slice(1).flatMap((day, index) => {
    const before = days[index] ?? day;
    return day - before > 1 ? [{ from: before + 1, to: day - 1 }] : [];
  });
}

export interface HistoryRow {
  date: string;
  /** Null: unknown. */
  used: number | null;
}

/** Every day from the first to the last, the latest first. */
export function historyRows(history: readonly UsedDay[]): HistoryRow[] {
  const used = new Map(history.map((day) => [dayNumber(day.date), day.used]));
  const days = [...used.keys()];
  const [first, last] = [Math.min(...days), Math.max(...days)];
  if (days.length === 0) return [];
  return Array.from({ length: last - first + 1 }, (_, index) => {
    const day = last - index;
    return { date: dateOfNumber(day), used: used.get(day) ?? null };
  });
}
