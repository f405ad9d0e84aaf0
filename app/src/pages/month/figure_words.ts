// Key figures and sums as people read them.

import type { FigureValue, MonthFigure, MonthSums } from '../../wire/contract';
import { money } from '../../words/money';
import { amount, number, say } from '../../words/words';

/** Which of the sources a figure rests on; the server has the same in English. */
export const SOURCE_OF: Readonly<Record<MonthFigure['key'], 'iso' | 'practice' | 'en' | 'own'>> = {
  availability: 'iso',
  'technical availability': 'en',
  'mtbf by failures': 'practice',
  'mtbf by iso 22400': 'iso',
  'mttr by failures': 'practice',
  'mttr by iso 22400': 'iso',
  'corrective ratio': 'iso',
  'planned share': 'own',
  'tasks in time': 'own',
  'rounds walked': 'own',
  'failure cost share': 'own',
};

/** A share in percent with a digit, or hours. */
export const inUnit = (value: number, unit: MonthFigure['unit']): string =>
  unit === 'h' ? amount(value, 'h') : `${number(100 * value, 1)}\u00a0%`;

/** "81.9 %", "81.9 % to 94.4 %", "at least 3.3 h", or why there is none. */
export function valueWords(figure: FigureValue, unit: MonthFigure['unit']): string {
  if (figure.value !== null) return inUnit(figure.value, unit);
  if (figure.none !== undefined) return say(`figure_none.${figure.none}`);
  const low = inUnit(figure.low ?? 0, unit);
  if (figure.high === undefined) return say('month.from', { low });
  const high = inUnit(figure.high, unit);
  return low === high ? low : say('month.range', { low, high });
}

/** "With 90 % confidence the true one is at least 62.5 h."; '' where there is no bound. */
export const boundWords = ({ at_least: bound }: FigureValue, confidence: number): string =>
  bound === undefined ? '' : say('month.bound', { percent: 100 * confidence, bound: amount(bound, 'h') });

export type SumKey = Exclude<keyof MonthSums, 'machines' | 'repairs_going_on'>;

/** In groups that belong together. */
export const SUM_KEYS: ReadonlyArray<SumKey> = [
  'planned_h',
  'operating_h',
  'unknown_h',
  'powered_h',
  'powered_unknown_h',
  'failures',
  'between_h',
  'repair_h',
  'corrective_h',
  'stops_h',
  'work_h',
  'work_in_stops_h',
  'tasks_done',
  'tasks_done_in_time',
  'tasks_overdue_undone',
  'turns',
  'turns_walked',
  'care_cost',
  'failure_cost',
];

export function sumWords(sums: MonthSums, key: SumKey, currency: string): string {
  if (key.endsWith('_h')) return amount(sums[key], 'h');
  return key.endsWith('_cost') ? money(sums[key], currency) : number(sums[key]);
}
