// A forecast of a due day in words: most likely when, and between which days with 80 %.

import type { Forecast, TaskState } from '../wire/contract';
import { saidIn } from '../words/sayings';
import { day, dayBeside, longDay, longDayBeside } from '../words/times';
import { say } from '../words/words';

/** What a forecast can be; each is said and drawn in its own way. */
export type ForecastKind = 'refused' | 'now' | 'never' | 'exact' | 'open' | 'range';

/** @param state of the task: what is due or overdue has no date to come */
export function kindOf(forecast: Forecast, state: TaskState): ForecastKind {
  if (state === 'due' || state === 'overdue') return 'now';
  if (forecast.refused !== undefined) return 'refused';
  if (forecast.median === null) return 'never';
  if (forecast.last === null || forecast.first === null) return 'open';
  return forecast.first === forecast.last ? 'exact' : 'range';
}

interface DateWriter {
  whole: (date: string) => string;
  beside: (date: string, median: string) => string;
}
const LONG: DateWriter = { whole: longDay, beside: longDayBeside };
const SHORT: DateWriter = { whole: day, beside: dayBeside };

function datesIn(forecast: Forecast, writer: DateWriter) {
  const median = forecast.median ?? '';
  return {
    median: median === '' ? '' : writer.whole(median),
    first: forecast.first === null ? '' : writer.beside(forecast.first, median),
    last: forecast.last === null ? '' : writer.beside(forecast.last, median),
  };
}

/** "most likely 14 January 2027, with 80 % between 5 January and 2 February" */
export function forecastWords(forecast: Forecast, state: TaskState): string {
  const kind = kindOf(forecast, state);
  if (kind === 'now') return say(`state.${state}`);
  if (kind === 'refused') return say('date.refused', { why: saidIn(forecast.refusal, forecast.refused ?? '') });
  if (kind === 'never' && forecast.first !== null) return say('date.hardly', { first: longDay(forecast.first) });
  return say(`date.${kind}`, datesIn(forecast, LONG));
}

/** "14 Jan 2027 (80 %: 5 Jan to 2 Feb)"; empty for what is due now. */
export function forecastShort(forecast: Forecast, state: TaskState): string {
  const kind = kindOf(forecast, state);
  if (kind === 'now') return '';
  return say(`date.${kind === 'refused' ? 'none' : kind}_short`, datesIn(forecast, SHORT));
}
