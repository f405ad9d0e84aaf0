// A reading against the limits that the shop has set for it, as the server judges it (src/condition/reading_limits.cpp):
//
//   action            warning     as it should be     warning            action
//   ......... action.min ... warning.min ... warning.max ... action.max ........
//
// A value on a limit is still within it. A reading without limits is written down but not judged.

import type { Bounds, GivenAnswer, ReadingState, TaskReading } from '../wire/contract';
import { measured, say } from '../words/words';

export interface Judgement {
  state: ReadingState;
  says: string;
}

/** "5.2 bar"; a reading that is called as its unit, such as pH, needs no unit again. */
export function printReading({ what, unit }: { what: string; unit: string }, value: number): string {
  return unit === what ? measured(value) : `${measured(value)}\u00a0${unit}`;
}

/** The limit that the value is beyond, and on which side. */
function beyond(value: number, bounds: Bounds | undefined): { side: 'below' | 'above'; at: number } | null {
  if (bounds?.min !== undefined && value < bounds.min) return { side: 'below', at: bounds.min };
  if (bounds?.max !== undefined && value > bounds.max) return { side: 'above', at: bounds.max };
  return null;
}

const isSet = (bounds: Bounds | undefined) => bounds?.min !== undefined || bounds?.max !== undefined;

export function judge(reading: TaskReading, value: number): Judgement {
  const said = { what: reading.what, value: printReading(reading, value) };
  if (!isSet(reading.warning) && !isSet(reading.action))
    return { state: 'not judged', says: say('judgement.not judged', said) };
  for (const state of ['action', 'warning'] as const) {
    const found = beyond(value, reading[state]);
    if (found === null) continue;
    const limit = printReading(reading, found.at);
    return { state, says: say(`judgement.${state}_${found.side}`, { ...said, limit }) };
  }
  return { state: 'as it should be', says: say('judgement.as it should be', said) };
}

/** The judgement that the server made of a reading when it was entered, by the limit of that time; '' of what has none. */
export function judgementOf({ check, value, unit, state, limit, says }: GivenAnswer): string {
  if (value === undefined || state === undefined) return says ?? '';
  const what = check.includes('/') ? check.slice(check.indexOf('/') + 1) : check;
  const reading = { what, unit: unit ?? '' };
  const said = { what, value: printReading(reading, value) };
  if (state === 'not judged' || state === 'as it should be') return say(`judgement.${state}`, said);
  if (limit === undefined) return says ?? '';
  const side = value < limit ? 'below' : 'above';
  return say(`judgement.${state}_${side}`, { ...said, limit: printReading(reading, limit) });
}
