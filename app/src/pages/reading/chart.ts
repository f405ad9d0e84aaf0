// Where the days of a reading, its limits, its ordinary band and its trend stand on the chart, in pixels.

import { dateOfNumber, dayNumber } from '../../parts/day_numbers';
import type { ReadingCrossing, ReadingWorking } from '../../wire/contract';

export interface ChartDay {
  x: number;
  y: number;
  /** It is out of the ordinary by some rule. */
  isOut: boolean;
}

export interface ChartLimit {
  kind: 'warning' | 'action';
  at: number;
  y: number;
}

export interface ReadingDrawing {
  days: ChartDay[];
  limits: ChartLimit[];
  band: { top: number; bottom: number } | null;
  /** The trend from the first day on to the end of what is drawn. */
  trend: { x1: number; y1: number; x2: number; y2: number } | null;
  /** When the next limit is met: median, and the 80 % range as far as it is drawn. */
  crossing: { x: number; from: number; to: number; y: number } | null;
  today: number | null;
  dates: Array<{ x: number; date: string }>;
}

export interface Frame {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** Days that are drawn beyond the last one: to the median of the next crossing, but no longer than the past is. */
function lastDayOf(working: ReadingWorking, first: number, last: number, today: number): number {
  const median = working.reading.crossing?.median;
  const past = Math.max(14, last - first);
  const ahead = median === null || median === undefined ? last : dayNumber(median) + Math.round(past * 0.1);
  return Math.min(Math.max(ahead, today, last + 1), last + Math.max(past, today - last));
}

function limitsOf({ reading }: ReadingWorking): Array<Omit<ChartLimit, 'y'>> {
  return (['action', 'warning'] as const).flatMap((kind) =>
    [reading[kind]?.min, reading[kind]?.max].flatMap((at) => (at === undefined ? [] : [{ kind, at }])),
  );
}

interface Scale {
  x: (day: number) => number;
  y: (value: number) => number;
  from: number;
  to: number;
}

/** Values decide the height, and those limits that lie no further from them than the values lie apart. */
function heightsOf(working: ReadingWorking): { low: number; high: number } {
  const values = working.days.map(({ value }) => value);
  const [lowest, highest] = [Math.min(...values), Math.max(...values)];
  const near = Math.max(highest - lowest, 6 * (working.chart?.sigma ?? 0), 1e-9) * 1.5;
  const limits = limitsOf(working).map(({ at }) => at);
  const close = limits.filter((at) => at >= lowest - near && at <= highest + near);
  const next = working.reading.crossing ? [working.reading.crossing.at] : [];
  const all = [...values, ...close, ...next];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  return high > low ? { low, high } : { low: low - 1, high: high + 1 };
}

function scaleOf(working: ReadingWorking, frame: Frame, today: number): Scale {
  const days = working.days.map(({ date }) => dayNumber(date));
  const [from, last] = [days[0] ?? today, days.at(-1) ?? today];
  const to = lastDayOf(working, from, last, today);
  const { low, high } = heightsOf(working);
  return {
    from,
    to,
    x: (day) => frame.left + ((day - from) / (to - from)) * (frame.right - frame.left),
    y: (value) => frame.bottom - ((value - low) / (high - low)) * (frame.bottom - frame.top),
  };
}

const clamped = (value: number, frame: Frame) => Math.min(Math.max(value, frame.top), frame.bottom);

function crossingOf(crossing: ReadingCrossing | undefined, scale: Scale): ReadingDrawing['crossing'] {
  if (!crossing || crossing.median === null) return null;
  const median = dayNumber(crossing.median);
  if (median > scale.to) return null;
  const first = crossing.first === null ? median : Math.max(dayNumber(crossing.first), scale.from);
  const last = crossing.last === null ? scale.to : Math.min(dayNumber(crossing.last), scale.to);
  return { x: scale.x(median), from: scale.x(first), to: scale.x(last), y: scale.y(crossing.at) };
}

function trendOf(working: ReadingWorking, scale: Scale): ReadingDrawing['trend'] {
  if (!working.trend || working.trend.direction === 'none seen') return null;
  const { begins_at, slope } = working.trend;
  const at = (day: number) => scale.y(begins_at + slope * (day - scale.from));
  return { x1: scale.x(scale.from), y1: at(scale.from), x2: scale.x(scale.to), y2: at(scale.to) };
}

const DATE_PX = 90;

/** @param today its day number */
export function drawing(working: ReadingWorking, frame: Frame, today: number): ReadingDrawing {
  const scale = scaleOf(working, frame, today);
  const { y, x, from, to } = scale;
  const every = Math.max(1, Math.ceil(((to - from) * DATE_PX) / (frame.right - frame.left)));
  const marks = Array.from({ length: Math.floor((to - from) / every) + 1 }, (_, index) => from + index * every);
  const { chart } = working;
  return {
    days: working.days.map(({ date, value, out }) => ({ x: x(dayNumber(date)), y: y(value), isOut: out.length > 0 })),
    limits: limitsOf(working)
      .map((limit) => ({ ...limit, y: y(limit.at) }))
      .filter((limit) => limit.y >= frame.top - 1 && limit.y <= frame.bottom + 1),
    band: chart ? { top: clamped(y(chart.upper), frame), bottom: clamped(y(chart.lower), frame) } : null,
    trend: trendOf(working, scale),
    crossing: crossingOf(working.reading.crossing, scale),
    today: today >= from && today <= to ? x(today) : null,
    dates: marks.map((day) => ({ x: x(day), date: dateOfNumber(day) })),
  };
}
