// The readings of a task while a person writes them: what, unit, and the ends between which it lies; by the rules of the
// server's catalogue/task.cpp. A limit that has no end is left empty.

import { numberIn, numberTrouble } from '../../parts/reading';
import type { Bounds, TaskReading } from '../../wire/contract';
import { measured, say } from '../../words/words';

export const LIMITS = ['actionMin', 'warningMin', 'warningMax', 'actionMax'] as const;
export type Limit = (typeof LIMITS)[number];
export type ReadingDraft = { what: string; unit: string } & Record<Limit, string>;

const WHAT_MAX = 60;
const UNIT_MAX = 20;

export const emptyReading = (): ReadingDraft => ({
  what: '',
  unit: '',
  actionMin: '',
  warningMin: '',
  warningMax: '',
  actionMax: '',
});

const typed = (value: number | undefined) => (value === undefined ? '' : measured(value).replaceAll('\u202f', ''));

export function readingDraft({ what, unit, warning, action }: TaskReading): ReadingDraft {
  return {
    what,
    unit,
    actionMin: typed(action?.min),
    warningMin: typed(warning?.min),
    warningMax: typed(warning?.max),
    actionMax: typed(action?.max),
  };
}

/** '' for a text of 1 to so many characters. */
export function wordTrouble(text: string, max: number): string {
  const count = text.trim().length;
  if (count === 0) return say('form.required');
  return count > max ? say('form.too_long', { max, count }) : '';
}

export const unitTrouble = (unit: string) => wordTrouble(unit, UNIT_MAX);

const limitTrouble = (text: string) => (text.trim() === '' ? '' : numberTrouble(text, { anySign: true }));
const valueOf = (text: string) => (text.trim() === '' ? undefined : numberIn(text));

/** The limits, each a number, against each other. */
function orderTroubles(reading: ReadingDraft): Partial<Record<Limit, string>> {
  const [actionMin, warningMin, warningMax, actionMax] = LIMITS.map((limit) => valueOf(reading[limit]));
  if (actionMin !== undefined && warningMin !== undefined && actionMin > warningMin)
    return { actionMin: say('form.action_min_above') };
  if (actionMax !== undefined && warningMax !== undefined && actionMax < warningMax)
    return { actionMax: say('form.action_max_below') };
  const [lowest, highest] = [warningMin ?? actionMin, warningMax ?? actionMax];
  if (lowest === undefined || highest === undefined || lowest < highest) return {};
  return { [warningMax === undefined ? 'actionMax' : 'warningMax']: say('form.limits_empty') };
}

function troublesOf(reading: ReadingDraft): Record<string, string> {
  const limits = Object.fromEntries(LIMITS.map((limit) => [limit, limitTrouble(reading[limit])]));
  const areNumbers = Object.values(limits).every((trouble) => trouble === '');
  return {
    what: wordTrouble(reading.what, WHAT_MAX),
    unit: unitTrouble(reading.unit),
    ...limits,
    ...(areNumbers ? orderTroubles(reading) : {}),
  };
}

/** By field: "readings.0.warningMin"; '' where nothing is wrong. */
export function readingTroubles(readings: readonly ReadingDraft[]): Record<string, string> {
  const troubles: Record<string, string> = {};
  readings.forEach((reading, index) => {
    for (const [field, trouble] of Object.entries(troublesOf(reading)))
      troubles[`readings.${index}.${field}`] = trouble;
    const isRepeated = readings.findIndex((other) => other.what.trim() === reading.what.trim()) < index;
    if (isRepeated) troubles[`readings.${index}.what`] = say('form.same_reading');
  });
  return troubles;
}

function bounds(min: string, max: string): Bounds | undefined {
  const [low, high] = [valueOf(min), valueOf(max)];
  if (low === undefined && high === undefined) return undefined;
  return { ...(low === undefined ? {} : { min: low }), ...(high === undefined ? {} : { max: high }) };
}

/** What the server takes. Only for a draft without troubles. */
export function readingEdit(reading: ReadingDraft): TaskReading {
  const warning = bounds(reading.warningMin, reading.warningMax);
  const action = bounds(reading.actionMin, reading.actionMax);
  return {
    what: reading.what.trim(),
    unit: reading.unit.trim(),
    ...(warning ? { warning } : {}),
    ...(action ? { action } : {}),
  };
}

/** In one line, for choosing between two versions. */
export function shownReading({ what, unit, ...limits }: ReadingDraft): string {
  return `${what} ${unit} (${LIMITS.map((limit) => limits[limit] || '–').join(' / ')})`;
}
