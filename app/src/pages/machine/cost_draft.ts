// What decides which interval costs least, while a person writes it: '' stands for not known.

import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { PartCosts } from '../../wire/contract';
import { say } from '../../words/words';

export interface CostDraft {
  parts: string;
  failedHours: string;
  failedDamage: string;
  /** How the part wears, by its lives; not for people to type. */
  wear: number | undefined;
}

const MONEY_MAX = 1e7;
const FAILED_HOURS_MAX = 1000;

export function costDraft(costs: PartCosts | undefined): CostDraft {
  const text = (value: number | undefined) => (value ? typed(value) : '');
  return {
    parts: text(costs?.parts),
    failedHours: text(costs?.failed_hours),
    failedDamage: text(costs?.failed_damage),
    wear: costs?.wear,
  };
}

/** By field, as the form names it; '' where nothing is wrong. */
export function costTroubles(costs: CostDraft): Record<string, string> {
  const trouble = (value: string, max: number) => (value.trim() === '' ? '' : numberTrouble(value, { max }));
  return {
    'costs.parts': trouble(costs.parts, MONEY_MAX),
    'costs.failedHours': trouble(costs.failedHours, FAILED_HOURS_MAX),
    'costs.failedDamage': trouble(costs.failedDamage, MONEY_MAX),
  };
}

/** What the server takes: what is not known is left out, so that it is none. */
export function costEdit(costs: CostDraft): PartCosts {
  const known = (value: string) => (value.trim() === '' ? undefined : numberIn(value));
  const [parts, hours, damage] = [known(costs.parts), known(costs.failedHours), known(costs.failedDamage)];
  return {
    ...(parts === undefined ? {} : { parts }),
    ...(hours === undefined ? {} : { failed_hours: hours }),
    ...(damage === undefined ? {} : { failed_damage: damage }),
    ...(costs.wear === undefined ? {} : { wear: costs.wear }),
  };
}

export function shownCosts(costs: CostDraft): string {
  return [
    costs.parts === '' ? '' : `${say('form.costs_parts')}: ${costs.parts}`,
    costs.failedHours === '' ? '' : `${say('form.costs_failed_hours')}: ${costs.failedHours}`,
    costs.failedDamage === '' ? '' : `${say('form.costs_failed_damage')}: ${costs.failedDamage}`,
  ]
    .filter((text) => text !== '')
    .join('; ');
}
