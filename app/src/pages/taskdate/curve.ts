// The chance that a task is due by each day, as a line to be drawn and as rows to be read.

import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { DueChance, Quantiles, TriggerWorking } from '../../wire/contract';

export interface ChanceStep {
  day: number;
  /** 0 to 1: due by the end of that day. */
  chance: number;
}

export const QUANTILES = [
  ['p05', 0.05],
  ['p10', 0.1],
  ['p25', 0.25],
  ['p50', 0.5],
  ['p75', 0.75],
  ['p90', 0.9],
  ['p95', 0.95],
] as const;

const stepsOf = (chances: readonly DueChance[]): ChanceStep[] =>
  chances
    .map(({ date, chance }) => ({ day: dayNumber(date), chance }))
    .sort((a, b) => a.day - b.day || a.chance - b.chance);

/** A calendar date is due with certainty from its day on. */
function stepsOfQuantiles(quantiles: Quantiles): ChanceStep[] {
  return QUANTILES.flatMap(([name, chance]) => {
    const date = quantiles[name];
    return date === null ? [] : [{ day: dayNumber(date), chance }];
  });
}

export function chancesOf(trigger: TriggerWorking): ChanceStep[] {
  if (trigger.chances !== undefined) return stepsOf(trigger.chances);
  if (trigger.calendar !== undefined && trigger.quantiles.p50 !== null)
    return [{ day: dayNumber(trigger.quantiles.p50), chance: 1 }];
  return stepsOfQuantiles(trigger.quantiles);
}

/** What the steps say of a day; between two days it stays as on the earlier. */
export function chanceOn(steps: readonly ChanceStep[], day: number): number {
  return steps.findLast((step) => step.day <= day)?.chance ?? 0;
}

const CERTAIN = 0.995;
const DAYS_MIN = 14;

/** The days that the drawing spans: what is uncertain with a little before and after, from today at the earliest. */
export function spanOf(steps: readonly ChanceStep[], today: number): { from: number; to: number } {
  const last = steps.find(({ chance }) => chance >= CERTAIN) ?? steps.at(-1);
  const to = Math.max(today + DAYS_MIN, last?.day ?? today);
  const first = steps.find(({ chance }) => chance > 1 - CERTAIN)?.day ?? today;
  const from = Math.max(today, Math.min(first - 2, to - DAYS_MIN));
  return { from, to: to + Math.max(2, Math.round((to - from) * 0.05)) };
}

/** Rows of the table: the days at which the chance is a round number for the first time. */
export function rowsOf(steps: readonly ChanceStep[]): Array<{ date: string; chance: number }> {
  const LEVELS = [0.01, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99];
  const found = LEVELS.map((level) => steps.find(({ chance }) => chance >= level)).filter((step) => step !== undefined);
  return [...new Set(found)].map(({ day, chance }) => ({ date: dateOfNumber(day), chance }));
}
