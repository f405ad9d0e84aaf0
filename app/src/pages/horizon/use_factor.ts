// How much more or less a machine will be used, in plain words where there are some for the number.

import { plain, say } from '../../words/words';

export const FACTORS = [0, 0.5, 0.67, 0.8, 1.25, 1.5, 2] as const;
export const FACTOR_MAX = 10;

/** 1.5: "half as much again"; 1.7: "1.7 times as much". */
export function factorWords(factor: number): string {
  const known = FACTORS.find((one) => one === factor);
  return known === undefined ? say('use.times', { factor: plain(factor) }) : say(`use.factor_${known}`);
}
