// An estimate in one line: what the stop costs, what is lost by its day, how long the machine stands, the greatest risk.

import { lengthWords } from '../../parts/stop_words';
import type { StopEstimate } from '../../wire/contract';
import { money } from '../../words/money';
import { number, say } from '../../words/words';

/** From 0 to 1: of the task that is most likely due before. */
export const greatestRisk = ({ tasks }: Pick<StopEstimate, 'tasks'>): number =>
  tasks.reduce((most, { chance_due_before }) => Math.max(most, chance_due_before), 0);

export function estimateWords(estimate: StopEstimate | null): string {
  if (estimate === null) return '';
  return say('estimate.line', {
    cost: money(estimate.cost.total, estimate.currency),
    early: money(estimate.early_loss, estimate.currency),
    length: lengthWords(estimate.standing_hours * 60),
    risk: number(greatestRisk(estimate) * 100),
  });
}
