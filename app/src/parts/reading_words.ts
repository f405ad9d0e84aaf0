// Where a reading goes, in words: its trend, and when it meets its next limit.

import type { Bounds, ReadingCrossing, ReadingLine } from '../wire/contract';
import { saidIn } from '../words/sayings';
import { longDay, longDayBeside } from '../words/times';
import { measured, say } from '../words/words';
import { judge, printReading } from './judge';

/** So that a slope of 0.0523 reads as 0.052. */
export const rounded = (value: number, digits = 2): string => measured(Number(value.toPrecision(digits)));

/** An amount with the unit, of which only so many digits are meant. */
export function roundedReading(reading: { what: string; unit: string }, value: number, digits = 2): string {
  return printReading(reading, Number(value.toPrecision(digits)));
}

const DAYS_OF_WEEK = 7;
export const weekly = (perDay: number): number => perDay * DAYS_OF_WEEK;

/** "falls by 0.35 bar a week", "no trend", or why there is none. */
export function trendWords(line: ReadingLine): string {
  if (line.refused !== undefined) return say('trend.refused', { why: saidIn(line.refusal, line.refused) });
  const { direction = 'none seen', slope = 0 } = line;
  if (direction === 'none seen') return say('trend.none seen');
  return say(`trend.${direction}`, { slope: roundedReading(line, Math.abs(weekly(slope))) });
}

/**
 * "will cross 5.5 bar about 14 January 2027, with 80 % between 5 January and 2 February".
 * @param today a median that is not after it may have come true since the last reading
 */
export function crossingWords(line: ReadingLine, crossing: ReadingCrossing, today: string): string {
  const { first, median, last } = crossing;
  const limit = printReading(line, crossing.at);
  if (line.last?.value === crossing.at) return say('trend.crosses_on', { limit });
  if (median === null) return say('trend.crosses_hardly', { limit });
  if (median <= today) return say('trend.crosses_now', { limit });
  const dates = { limit, median: longDay(median), first: first === null ? '' : longDayBeside(first, median) };
  if (last === null) return say('trend.crosses_open', dates);
  return say('trend.crosses', { ...dates, last: longDayBeside(last, median) });
}

const isSet = (bounds: Bounds | undefined) => bounds?.min !== undefined || bounds?.max !== undefined;

/** Of the next limit; of what leads to none, why; '' where there is no trend. */
export function aheadWords(line: ReadingLine, today: string): string {
  if (line.crossing) return crossingWords(line, line.crossing, today);
  if (!isSet(line.warning) && !isSet(line.action)) return say('trend.no_limits');
  return line.direction === 'rising' || line.direction === 'falling' ? say('trend.no_limit_ahead') : '';
}

/** What Today says of it: beyond its action limit, or when it will be beyond the next one. */
export function pressingWords(line: ReadingLine, today: string): string {
  if (line.last?.state === 'action') return judge(line, line.last.value).says;
  return line.crossing ? crossingWords(line, line.crossing, today) : trendWords(line);
}

/** What a finding of it begins with. */
export function findingWords(line: ReadingLine, today: string): string {
  if (line.last?.state === 'action') return judge(line, line.last.value).says;
  const crossing = aheadWords(line, today);
  const words = { what: line.what, trend: trendWords(line), crossing };
  return crossing === '' ? `${words.what}: ${words.trend}` : say('trend.finding_crossing', words);
}
