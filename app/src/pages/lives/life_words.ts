// What the pages about lives say in numbers.

import type { IntervalMove, LifePart } from '../../wire/contract';
import { money } from '../../words/money';
import { number, plain, plainAmount, say } from '../../words/words';

/** Rates are small: told per so many units that they have whole digits. */
export function rateWords(rate: number, unit: string, currency: string): { per: number; words: string } {
  const per = rate > 0 ? 10 ** Math.max(0, Math.ceil(2 - Math.log10(rate))) : 1;
  const words = say('lives.rate', { money: money(Math.round(rate * per), currency), per: plainAmount(per, unit) });
  return { per, words };
}

export const shortMoney = (value: number, currency: string) => money(Math.round(value), currency);

/** A chance as a person says it: never 0 or 100 %. */
export const chanceWords = (chance: number) =>
  chance > 0.995 ? say('lives.more_than', { share: '99\u00a0%' }) : `${number(Math.max(1, chance * 100))}\u00a0%`;

/** "saves about 1 910 € a year (837 € to 3 013 €)", or costs. */
export function savingWords(move: IntervalMove, currency: string): string {
  const saves = move.saving_per_year >= 0;
  const sign = saves ? 1 : -1;
  const ends = [move.saving_5, move.saving_95].map((one) => shortMoney(sign * one, currency));
  if (!saves) ends.reverse();
  return say(saves ? 'lives.saves' : 'lives.costs_more', {
    money: shortMoney(sign * move.saving_per_year, currency),
    least: ends[0] ?? '',
    most: ends[1] ?? '',
  });
}

/** What the lives say of the interval, in a sentence. */
export function adviceWords(part: LifePart, currency: string): string {
  const { move, interval, unit } = part;
  if (move === undefined || interval === undefined) return '';
  const now = plainAmount(interval, unit);
  if (move.interval === interval)
    return say(part.is_held_back ? 'lives.stays_unknown' : 'lives.stays', { interval: now });
  return say('lives.could_move', {
    now,
    then: plainAmount(move.interval, unit),
    saving: savingWords(move, currency),
    chance: chanceWords(move.chance),
  });
}

export const ageWords = (age: number, unit: string) => plainAmount(Number(age.toPrecision(4)), unit);
export const shapeWords = (value: number) => plain(Number(value.toPrecision(3)));
