// The invented shop's estimates and proposals: numbers of a rough kind, of the right shape. A proposal gathers each
// machine's tasks of the next weeks into one stop on a Saturday.
import { dateOf } from './horizon.mjs';
import { Refusal } from './refusal.mjs';
import { SHIFTS, standingMinutes, strictest } from './stops.mjs';

const DAY_MS = 86_400_000;
const PER_HOUR = 80;
/** Of the outside service, to come once. */
const WAY = { cost: 240, hours: 1 };
const PARTS_OF_COST = ['stops', 'lost_production', 'labour_premium', 'overtime', 'timing', 'end'];
const SHARES = [0.2, 0.45, 0.05, 0.02, 0.24, 0.04];

const daysTo = (date) => Math.round((Date.parse(date) - Date.parse(dateOf(0))) / DAY_MS);
const isSaturday = (date) => new Date(date).getUTCDay() === 6;

/** The money as its parts, which sum up. */
function money(total) {
  const parts = PARTS_OF_COST.map((name, index) => [name, total * SHARES[index]]);
  return { ...Object.fromEntries(parts), total };
}

function riskOf({ task, forecast, state }, on) {
  const middle = state === 'due' || state === 'overdue' ? 0 : daysTo(forecast.median ?? dateOf(400));
  const away = middle - daysTo(on);
  const spread = 2 + Math.abs(daysTo(forecast.last ?? dateOf(400)) - middle);
  const chance_due_before = 1 / (1 + Math.exp((1.7 * away) / spread));
  const [early_days, late_days] = [Math.max(0, away), Math.max(0, -away)];
  return { task, chance_due_before, early_days, late_days, loss: early_days * 1.5 + late_days * 9 };
}

const sum = (values) => values.reduce((total, value) => total + value, 0);

export class Proposals {
  constructor(shop) {
    this.shop = shop;
    this.latest = null;
  }

  dated(machine, keys) {
    const { tasks } = this.shop.dates.horizonMachine(machine);
    return keys.map((key) => tasks.find((one) => one.task === key) ?? this.refuseTask(machine, key));
  }

  refuseTask(machine, key) {
    throw new Refusal(400, 'bad-input', `tasks: ${machine.name} has no task "${key}" that can be planned.`);
  }

  estimate(wish) {
    const machine = this.shop.find(wish.machine);
    const { begins, ends } = SHIFTS.find((one) => one.name === wish.shift) ?? {};
    if (!begins) throw new Refusal(400, 'bad-input', `shift: the plant has no shift "${wish.shift}".`);
    const tasks = wish.tasks.map((key) => this.shop.findTask(machine, key));
    const risks = this.dated(machine, wish.tasks).map((task) => riskOf(task, wish.on));
    const hours = standingMinutes(tasks) / 60;
    const over = Math.max(0, hours - (parseInt(ends) - parseInt(begins)));
    const cost = {
      set_up: strictest(tasks) === 'isolated' ? 90 : 45,
      standing: isSaturday(wish.on) ? 0 : hours * PER_HOUR,
      premium: isSaturday(wish.on) ? hours * 22 : 0,
      overtime: over * 60,
      timing: sum(risks.map(({ loss }) => loss)),
      travel: tasks.some(({ skill }) => skill === 'outside service') ? WAY.cost : 0,
    };
    const loss = (days) => sum(risks.filter((one) => one[days] > 0).map((one) => one.loss));
    return {
      currency: 'EUR',
      cost: { ...cost, total: sum(Object.values(cost)) },
      early_loss: loss('early_days'),
      late_loss: loss('late_days'),
      standing_hours: hours,
      hours_over_shift: over,
      tasks: risks,
      people: peopleOf(tasks),
      parts: tasks.flatMap((task) => task.parts),
      ...(cost.travel > 0 && { visit: { ...WAY, machines: [] } }),
      troubles: over > 0 ? [sentence('It is too long.', 'stop-too-long', {}, { hours, room: hours - over })] : [],
    };
  }

  differences(weeks) {
    const busy = new Set(this.shop.stops.agreed().map(({ machine }) => machine));
    const on = dateOf(((6 - new Date().getUTCDay() + 7) % 7) + 7);
    return this.shop.machines
      .filter(({ key }) => !busy.has(key))
      .map((machine) => {
        const tasks = this.shop.dates
          .horizonMachine(machine)
          .tasks.filter(
            ({ forecast, energy }) =>
              energy !== 'in production' &&
              forecast.median !== null &&
              daysTo(forecast.median) < Math.min(weeks, 5) * 7,
          );
        return { machine, tasks: tasks.slice(0, 5) };
      })
      .filter(({ tasks }) => tasks.length > 1)
      .map(({ machine, tasks }, index) => differenceOf(machine, tasks, on, index));
  }

  /** Each machine's first service, one a Saturday; the first machine's finds no place, the second's has time. */
  services() {
    const saturday = ((6 - new Date().getUTCDay() + 7) % 7) + 7;
    return this.shop.machines.slice(2).flatMap((machine, index) => {
      const [service] = this.shop.kinds.find(({ key }) => key === machine.kind).services;
      const held = this.shop.stops.agreed().filter((stop) => stop.machine === machine.key);
      const isFree = (key) => !held.some((stop) => stop.tasks.some(({ task }) => task === key));
      const tasks = this.shop.dates
        .horizonMachine(machine)
        .tasks.filter(({ task }) => service.tasks.includes(task) && isFree(task));
      const on = dateOf(saturday + 7 * index);
      return tasks.length === 0 ? [] : [{ ...differenceOf(machine, tasks, on, index), service: service.key }];
    });
  }

  propose(edit) {
    return this.shop.once(edit.id, () => {
      if (this.latest?.state === 'running') throw new Refusal(409, 'proposal-running', 'A proposal is being made.');
      const { id, by, what = 'all', seconds = 20 } = edit;
      const weeks = edit.weeks ?? (what === 'services' ? 52 : 12);
      const asked_at = new Date().toISOString();
      const open = { differences: [], without_place: [], says: '' };
      this.latest = { id, by, asked_at, state: 'running', share: 0, seconds, weeks, what, ...open };
      return this.show();
    });
  }

  show() {
    const one = this.latest;
    if (one === null) throw new Refusal(404, 'not-found', 'No proposal was made since the server began.');
    if (one.state === 'running') {
      one.share = Math.min(1, (Date.now() - Date.parse(one.asked_at)) / (one.seconds * 1000));
      if (one.share >= 1) this.end('ready');
    }
    return structuredClone(one);
  }

  end(state) {
    const isOfServices = this.latest.what === 'services';
    const differences = isOfServices ? this.services() : this.differences(this.latest.weeks);
    const saving = sum(differences.map((one) => one.saving));
    const [then, now] = [14_200, 14_200 + saving];
    const stranger = this.shop.dates.horizonMachine(this.shop.machines[0]).tasks[0];
    Object.assign(this.latest, {
      ...{ state, currency: 'EUR', cost: money(then), bound: then * 0.993, gap: 0.007, differences, saving },
      now: { cost: money(now), stops: differences.length * 2, standing_h: differences.length * 5.5 },
      then: { cost: money(then), stops: differences.length, standing_h: differences.length * 3.75 },
      ...{ rule: 'with next 14 days', rules: rulesOf(now) },
      ...(isOfServices
        ? { later: [{ machine: this.shop.machines[1].key, service: 'yearly', due_on: dateOf(400) }] }
        : {}),
      without_place: [
        {
          machine: this.shop.machines[0].key,
          ...(isOfServices ? { service: 'yearly' } : { task: stranger.task }),
          ...sentence('The shift has no room.', 'stop-too-long', {}, { hours: 11, room: 8 }),
          ways: [sentence('2 d later', 'room-later', {}, { days: 2 })],
        },
      ],
    });
  }

  found(id) {
    if (this.latest?.id !== id) throw new Refusal(404, 'not-found', 'There is no such proposal.');
    return this.latest;
  }

  cancel(id) {
    const one = this.found(id);
    if (one.state === 'running') this.end('cancelled');
    return this.show();
  }

  accept(id, edit) {
    return this.shop.once(edit.id, () => {
      const one = this.found(id);
      const chosen = one.differences.filter(({ key }) => edit.differences.includes(key));
      if (chosen.some(({ accepted }) => accepted)) throw new Refusal(409, 'conflict', 'It is accepted already.');
      const stops = chosen.map(({ machine, on, shift, tasks }, index) =>
        this.shop.stops.agree(machine, { ...edit, id: idLike(edit.id, index), on, shift, tasks }),
      );
      for (const difference of chosen) difference.accepted = true;
      one.last = stops.map((stop) => stop.id);
      one.lastKeys = edit.differences;
      for (const hidden of ['last', 'lastKeys']) Object.defineProperty(one, hidden, { enumerable: false });
      return { stops, entries: stops.map((stop) => this.entryOf(stop)) };
    });
  }

  undo(id, sign) {
    return this.shop.once(sign.id, () => {
      const one = this.found(id);
      if (!one.last) throw new Refusal(409, 'conflict', 'Nothing of this proposal is accepted.');
      const stops = one.last.map((stop, index) =>
        this.shop.stops.withdraw(stop, { ...sign, id: idLike(sign.id, index), why: 'taken back' }),
      );
      for (const difference of one.differences) if (one.lastKeys.includes(difference.key)) difference.accepted = false;
      delete one.last;
      return { stops, entries: stops.map((stop) => this.entryOf(stop)) };
    });
  }

  entryOf(stop) {
    return this.shop.find(stop.machine).entries.find((entry) => entry.stop === stop.id);
  }
}

/** As the server says things: in English, and by a code with what is filled in. */
const sentence = (text, code, texts = {}, numbers = {}) => ({ text, saying: { code, texts, numbers } });

const idLike = (id, index) => id.slice(0, -4) + (0x1000 + index).toString(16);

const rulesOf = (now) =>
  [
    ['with next 14 days', 1],
    ['monthly service', 1.22],
    ['due day', 1.9],
  ].map(([rule, factor]) => ({ rule, cost: now * factor, saving_share: 1 - 14_200 / (now * factor) }));

function peopleOf(tasks) {
  return [...new Set(tasks.map(({ skill }) => skill))].map((skill) => {
    const wants_h = sum(tasks.filter((one) => one.skill === skill).map(({ minutes }) => minutes / 60));
    return { skill, wants_h, has_h: 8, overtime_h: Math.max(0, wants_h - 8) };
  });
}

function differenceOf(machine, tasks, on, index) {
  const saving = 90 + 37 * ((index * 7) % 11);
  return {
    ...{ key: `${machine.key}-new`, kind: 'new', machine: machine.key, on, shift: 'weekend' },
    ...{ energy: strictest(tasks), tasks: tasks.map(({ task }) => task), minutes: standingMinutes(tasks), saving },
    reasons: [
      sentence(`${tasks.length} tasks share one isolation.`, 'one-isolation', {}, { count: tasks.length }),
      sentence(`On ${on} standing costs nothing.`, 'standing-free', { date: on }),
    ],
    accepted: false,
  };
}

export function routesOfProposals(proposals, tell) {
  const changed = (accepted) => {
    for (const { machine } of accepted.stops) tell(machine);
    return accepted;
  };
  return [
    ['POST', /^\/api\/stops\/estimate$/, (_, body) => proposals.estimate(body)],
    ['POST', /^\/api\/proposals$/, (_, body) => proposals.propose(body)],
    ['GET', /^\/api\/proposals\/latest$/, () => proposals.show()],
    ['POST', /^\/api\/proposals\/([^/]+)\/cancel$/, ([p]) => proposals.cancel(p)],
    ['POST', /^\/api\/proposals\/([^/]+)\/accept$/, ([p], body) => changed(proposals.accept(p, body))],
    ['POST', /^\/api\/proposals\/([^/]+)\/undo$/, ([p], body) => changed(proposals.undo(p, body))],
  ];
}
