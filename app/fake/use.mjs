// The invented machines' use by day, and how well forecasts from it would have come true; all of it made up.
import { randomFrom, SHARES } from './random.mjs';

const DAY_MS = 86_400_000;
/** Use of each weekday from Monday on, relative to the mean of all seven. */
export const WEEKDAYS = [1.36, 1.4, 1.41, 1.38, 1.21, 0.24, 0];
const HOURS_PER_DAY = 11.5;

export const meanPerDay = (counter) => HOURS_PER_DAY * (SHARES[counter] ?? 0.5);

/** The last `count` days; a spell of unknown days is left out. */
export function historyOf(machine, counter, count) {
  const random = randomFrom(Math.round(machine.base.powered));
  const days = [];
  let level = 1;
  for (let ago = count; ago >= 1; ago -= 1) {
    const at = new Date(Date.now() - ago * DAY_MS);
    level = 1 + 0.98 * (level - 1) + 0.05 * (random() - 0.5);
    const used = meanPerDay(counter) * level * WEEKDAYS[(at.getUTCDay() + 6) % 7] * (0.7 + 0.6 * random());
    const isUnknown = ago > 120 && ago <= 131;
    const isShut = ago > 200 && ago <= 214;
    if (!isUnknown) days.push({ date: at.toISOString().slice(0, 10), used: isShut ? 0 : Math.min(24, used) });
  }
  return days;
}

export function backtestOf(machine, counter) {
  const days = 400;
  const rows = [3, 10, 30, 90, 0].map((horizon_days, index) => {
    const width_days = 0.9 + 0.34 * horizon_days;
    const loss = 0.16 * width_days;
    return {
      ...{ horizon_days, forecasts: 380 - 2 * horizon_days, inside80: Math.round((380 - 2 * horizon_days) * 0.82) },
      ...{ width_days, loss },
      naive: [
        { name: 'mean of 30 days', loss: loss * (1.22 + 0.03 * index) },
        { name: 'last week again', loss: loss * (1.48 + 0.1 * index) },
        { name: 'mean of 365 days', loss: loss * (1.61 - 0.12 * index) },
      ],
    };
  });
  return { machine: machine.key, counter, unit: 'h', days, last: 50, last_inside80: 41, rows };
}
