// The invented shop's due dates, announced changes of use, and what has to be decided today. Dates come from a rough
// model of its own: a mean use per day, and a spread that grows with the days; the server does it well.
import { Refusal } from './refusal.mjs';
import { SHIFTS } from './stops.mjs';
import { backtestOf, historyOf, meanPerDay, WEEKDAYS } from './use.mjs';

const DAY_MS = 86_400_000;
const CHANCES = { p05: -1.645, p10: -1.282, p25: -0.674, p50: 0, p75: 0.674, p90: 1.282, p95: 1.645 };
const TEN_YEARS = 3650;
const DAILY = /^1 (shift|day)$/;
const NEW_MACHINE = 'm14';
const STANDING_MACHINE = 'm07';

export const dateOf = (days, from = Date.now()) => new Date(from + days * DAY_MS).toISOString().slice(0, 10);

/** The standard normal distribution, to about 1e-3 (a logistic with the same slope; from memory). */
const normal = (z) => 1 / (1 + Math.exp(-1.702 * z));

function counterDays(machine, trigger) {
  if (machine.key === NEW_MACHINE && trigger.counter === 'cutting')
    return {
      refused: 'This machine does not count it yet.',
      refusal: { code: 'use-not-counted', texts: {}, numbers: {} },
    };
  if (machine.key === STANDING_MACHINE) return { middle: TEN_YEARS * 2, spread: 0 };
  const middle = Math.max(0, trigger.left / meanPerDay(trigger.counter));
  return { middle, spread: 0.9 * Math.sqrt(middle) + 0.09 * middle };
}

const atChance = ({ middle, spread }, z) => Math.max(0, Math.floor(middle + z * spread));

function quantilesOf(days) {
  return Object.fromEntries(
    Object.entries(CHANCES).map(([name, z]) => {
      const at = days.reduce((least, one) => Math.min(least, atChance(one, z)), Infinity);
      return [name, at > TEN_YEARS ? null : dateOf(at)];
    }),
  );
}

const daysOf = (machine, trigger) =>
  trigger.counter ? counterDays(machine, trigger) : { middle: Math.max(0, trigger.days_left), spread: 0 };

const refusalOf = ({ refused, refusal }) => ({ refused, refusal });

function forecastOf(machine, task) {
  const all = task.triggers.map((trigger) => ({ ...daysOf(machine, trigger), trigger }));
  const known = all.filter((one) => one.refused === undefined);
  if (known.length === 0)
    return { first: null, median: null, last: null, overdue_median: null, leads: '', ...refusalOf(all[0]) };
  const { p10, p50, p90 } = quantilesOf(known);
  const leader = known.reduce((best, one) => (one.middle < best.middle ? one : best));
  const late = leader.trigger.tolerance_days ?? (leader.trigger.tolerance ?? 0) / meanPerDay(leader.trigger.counter);
  const overdue_median = p50 === null ? null : dateOf(Math.max(0, leader.middle + late));
  const leads = leader.trigger.counter ?? leader.trigger.calendar;
  return { first: p10, median: p50, last: p90, overdue_median, leads };
}

const isNear = ({ stop }) => stop.on <= dateOf(1);

function closedDays() {
  const days = Array.from({ length: 400 }, (_, index) => dateOf(index));
  const isShut = (on) => on.slice(5) >= '12-24' || on.slice(5) === '01-01';
  return days.filter(isShut).map((on) => ({ on, why: on.slice(5) === '01-01' ? 'New Year' : 'Works holiday' }));
}

/** As many machines and tasks as wanted, by repeating those that there are with shifted dates. */
export function many(horizon, machines, tasks) {
  const shifted = (date, days) => (date === null ? null : dateOf(days, Date.parse(`${date}T00:00:00Z`)));
  const taskAs = (task, index, shift) => {
    const { first, median, last, overdue_median } = task.forecast;
    const dates = [first, median, last, overdue_median].map((date) => shifted(date, shift));
    const forecast = { ...task.forecast };
    [forecast.first, forecast.median, forecast.last, forecast.overdue_median] = dates;
    return { ...task, task: `${task.task}-${index}`, state: shift === 0 ? task.state : 'in hand', forecast };
  };
  const machineAs = (_, index) => {
    const pattern = horizon.machines[index % horizon.machines.length];
    const round = Math.floor(index / horizon.machines.length);
    const made = Array.from({ length: pattern.tasks.length === 0 ? 0 : tasks }, (__, at) => {
      const lap = Math.floor(at / pattern.tasks.length);
      return taskAs(pattern.tasks[at % pattern.tasks.length], at, lap * 9 + ((round * 5 + at * 3) % 7) * lap);
    });
    return round === 0 && pattern.tasks.length >= tasks
      ? pattern
      : { ...pattern, machine: `${pattern.machine}-${round}`, name: `${pattern.name} ${round + 1}`, tasks: made };
  };
  return { ...horizon, machines: Array.from({ length: machines }, machineAs) };
}

export class Dates {
  constructor(shop) {
    this.shop = shop;
    this.changes = [];
  }

  tasksOf(machine) {
    return machine.tasks
      .map((task) => this.shop.task(machine, task))
      .filter((task) => !task.triggers.every((trigger) => DAILY.test(trigger.calendar ?? '')));
  }

  horizonMachine(machine) {
    const tasks = this.tasksOf(machine).map((task) => {
      const { key, title, assembly, skill, energy, minutes, state } = task;
      return { task: key, title, assembly, skill, energy, minutes, state, forecast: forecastOf(machine, task) };
    });
    return { machine: machine.key, name: machine.name, kind: machine.kind, cell: machine.cell, tasks };
  }

  horizon(key) {
    const machines = key ? [this.shop.find(key)] : this.shop.machines;
    return {
      now: new Date().toISOString(),
      today: dateOf(0),
      closed: closedDays(),
      shifts: SHIFTS,
      stops: this.shop.stops.agreed(key),
      machines: machines.map((machine) => this.horizonMachine(machine)),
    };
  }

  triggerWorking(machine, trigger) {
    const days = daysOf(machine, trigger);
    if (trigger.calendar !== undefined)
      return { calendar: trigger.calendar, quantiles: quantilesOf([days]), basis: 'An exact date of the calendar.' };
    const { counter } = trigger;
    const head = { counter, unit: 'h', left: trigger.left, used_today: 0.3 * meanPerDay(counter) };
    if (days.refused)
      return { ...head, quantiles: quantilesOf([{ middle: Infinity, spread: 0 }]), basis: '', ...refusalOf(days) };
    const history = historyOf(machine, counter, 400);
    return {
      ...head,
      quantiles: quantilesOf([days]),
      first_on: history[0].date,
      last_on: history.at(-1).date,
      basis: `${history.length} known days since ${history[0].date}; Monday to Friday, hardly any use at weekends; the level wanders.`,
      history,
      chances: chancesOf(days),
      weekdays: WEEKDAYS,
      ahead: [7, 28, 91, 364].map((ahead) => ({
        days: ahead,
        per_day: meanPerDay(counter),
        spread: meanPerDay(counter) * (0.3 / Math.sqrt(ahead / 7) + 0.08),
      })),
      mean_per_day: meanPerDay(counter),
      known_days: history.length,
      unknown_days: 400 - history.length,
      memory_days: 46,
      season_weight: 0.12,
      idle_days: 0,
      ...this.changeFor(machine),
    };
  }

  changeFor(machine) {
    const change = this.changes.find((one) => !one.withdrawn && (one.machine ?? machine.key) === machine.key);
    return change ? { change_from: change.from, change_factor: change.factor } : {};
  }

  forecast(key, taskKey) {
    const machine = this.shop.find(key);
    const task = this.shop.task(machine, this.shop.findTask(machine, taskKey));
    const known = task.triggers.map((trigger) => daysOf(machine, trigger)).filter((one) => !one.refused);
    return {
      machine: key,
      task: taskKey,
      quantiles: quantilesOf(known.length > 0 ? known : [{ middle: Infinity, spread: 0 }]),
      triggers: task.triggers.map((trigger) => this.triggerWorking(machine, trigger)),
    };
  }

  backtest(key, counter) {
    const machine = this.shop.find(key);
    return backtestOf(machine, counter);
  }

  announce(edit) {
    return this.shop.once(edit.id, () => {
      const { id, by, machine = null, from, until, factor, why } = edit;
      if (machine !== null) this.shop.find(machine);
      if (until !== undefined && until < from)
        throw new Refusal(400, 'bad-input', `until: ${until} lies before the first day, ${from}.`);
      const change = {
        id,
        machine,
        from,
        ...(until ? { until } : {}),
        factor,
        why,
        by,
        at: new Date().toISOString(),
        withdrawn: false,
      };
      this.changes.unshift(change);
      return change;
    });
  }

  withdraw(id, sign) {
    return this.shop.once(sign.id, () => {
      const change = this.changes.find((one) => one.id === id);
      if (!change) throw new Refusal(404, 'not-found', 'There is no such change of use.');
      if (change.withdrawn) throw new Refusal(409, 'conflict', 'It is withdrawn already.');
      change.withdrawn = true;
      return change;
    });
  }

  today() {
    return { now: new Date().toISOString(), today: dateOf(0), items: this.items() };
  }

  items() {
    const { findings, machines } = this.shop;
    const open = findings.sorted((one) => one.state === 'open');
    const lost = machines.filter((machine) => machine.feed === 'lost');
    const strays = this.shop.logbook.page(new URLSearchParams()).strays;
    return [
      ...open.map((finding) => ({ kind: 'finding', machine: finding.machine, finding })),
      ...this.taskItems(),
      ...this.shop.stops
        .agreed()
        .map((stop) => ({ kind: 'stop', machine: stop.machine, stop }))
        .filter(isNear),
      ...lost.map((machine) => this.counterItem(machine)),
      ...(strays > 0 ? [{ kind: 'stray', count: strays }] : []),
    ];
  }

  taskItems() {
    const rank = { overdue: 0, due: 1 };
    const within = ({ task, forecast }) =>
      task.state in rank || (forecast.first !== null && forecast.first <= dateOf(7) && forecast.median !== null);
    const itemOf = (machine, task) => ({
      ...{ kind: 'task', machine: machine.key, task, forecast: forecastOf(machine, task) },
      ...(task.state === 'overdue' ? { overdue_since: dateOf(-3 - (task.minutes % 20)) } : {}),
    });
    const place = ({ task, forecast }) => `${rank[task.state] ?? 2} ${forecast.median}`;
    return this.shop.machines
      .flatMap((machine) => this.tasksOf(machine).map((task) => itemOf(machine, task)))
      .filter(within)
      .sort((a, b) => place(a).localeCompare(place(b)));
  }

  counterItem(machine) {
    const feed = this.shop.feed(machine);
    return { kind: 'counter', machine: machine.key, feed, silent_since: feed.last_sign_at };
  }
}

function chancesOf({ middle, spread }) {
  if (middle > TEN_YEARS) return [];
  const width = Math.max(spread, 0.4);
  const from = Math.max(0, Math.floor(middle - 3 * width));
  const step = Math.max(1, Math.round(width / 8));
  const days = Array.from({ length: Math.ceil((6 * width) / step) + 1 }, (_, index) => from + index * step);
  return days.map((day) => ({ date: dateOf(day), chance: Math.min(1, normal((day + 0.5 - middle) / width)) }));
}

export function routesOfDates(dates, tell) {
  const everywhere = (answer) => {
    tell(answer.machine ?? 'm01');
    return answer;
  };
  return [
    ['GET', /^\/api\/horizon$/, (_, __, q) => dates.horizon(q.get('machine'))],
    ['GET', /^\/api\/machines\/([^/]+)\/tasks\/([^/]+)\/forecast$/, ([m, t]) => dates.forecast(m, t)],
    ['GET', /^\/api\/machines\/([^/]+)\/backtest$/, ([m], _, q) => dates.backtest(m, q.get('counter'))],
    [
      'GET',
      /^\/api\/machines\/([^/]+)\/readings$/,
      ([machine]) => ({
        ...{ now: new Date().toISOString(), machine },
        ...{ readings: [], uses: [] },
      }),
    ],
    ['GET', /^\/api\/use-changes$/, () => ({ changes: dates.changes })],
    ['POST', /^\/api\/use-changes$/, (_, body) => everywhere(dates.announce(body))],
    ['POST', /^\/api\/use-changes\/([^/]+)\/withdraw$/, ([c], body) => everywhere(dates.withdraw(c, body))],
    ['GET', /^\/api\/today$/, () => dates.today()],
  ];
}
