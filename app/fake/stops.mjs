// The invented shop's stops: agreed, changed, withdrawn, closed, and the card of one. Its shifts follow UTC, its order of
// work is only by energy state, and a machine of every kind has the same isolation points; the server does it well.
import { dateOf } from './horizon.mjs';
import { ISOLATION } from './isolation.mjs';
import { Refusal } from './refusal.mjs';

export const SHIFTS = [
  { name: 'early', begins: '06:00', ends: '14:00', weekdays: [1, 2, 3, 4, 5] },
  { name: 'late', begins: '14:00', ends: '22:00', weekdays: [1, 2, 3, 4, 5] },
  { name: 'weekend', begins: '07:00', ends: '15:00', weekdays: [6] },
];
const STRICTNESS = ['in production', 'powered at rest', 'isolated'];
export const SET_UP_MINUTES = { 'in production': 0, 'powered at rest': 30, isolated: 60 };

export const strictest = (tasks) =>
  tasks.reduce(
    (most, { energy }) => (STRICTNESS.indexOf(energy) > STRICTNESS.indexOf(most) ? energy : most),
    'powered at rest',
  );
export const standingMinutes = (tasks) =>
  SET_UP_MINUTES[strictest(tasks)] +
  tasks.filter(({ energy }) => energy !== 'in production').reduce((sum, { minutes }) => sum + minutes, 0);

const plannedTask = ({ key, title, assembly, point, work, skill, energy, minutes }) => ({
  ...{ task: key, title, assembly, work, skill, energy, minutes, state: 'planned' },
  ...(point === undefined ? {} : { point }),
});

const PHASES = [
  ['in production', 'none'],
  ['powered at rest', 'shut down'],
  ['isolated', 'isolate'],
];

function orderOf(tasks) {
  const phases = PHASES.map(([energy, change]) => ({
    energy,
    change,
    of: tasks.filter((one) => one.energy === energy),
  }));
  const used = phases.filter(({ of, energy }) => of.length > 0 || energy === 'powered at rest');
  let begin = 0;
  const minutes = standingMinutes(tasks);
  return {
    state_changes: used.length,
    walk_sides: 3.4,
    minutes_one: minutes,
    minutes_two: minutes * 0.7,
    phases: used.map(({ energy, change, of }) => ({
      energy,
      change,
      works: of.map((task, index) => {
        const work = { task: task.key, person: 1 + (index % 2), begin_minutes: begin, alone: false, after: [] };
        begin += task.minutes;
        return work;
      }),
    })),
  };
}

function kitOf(tasks) {
  const kit = new Map();
  for (const task of tasks)
    for (const { name, quantity, unit } of task.parts) {
      const line = kit.get(`${name} ${unit}`) ?? { name, quantity: 0, unit, tasks: [] };
      kit.set(`${name} ${unit}`, { ...line, quantity: line.quantity + quantity, tasks: [...line.tasks, task.key] });
    }
  return [...kit.values()];
}

export class Stops {
  constructor(shop) {
    this.shop = shop;
    this.all = new Map();
  }

  agreed(machine) {
    return [...this.all.values()]
      .filter((stop) => stop.state === 'agreed' && (!machine || stop.machine === machine))
      .sort((a, b) => a.begins_at.localeCompare(b.begins_at));
  }

  list(query) {
    const [machine, state] = [query.get('machine'), query.get('state') ?? 'agreed'];
    if (machine) this.shop.find(machine);
    if (state === 'agreed') return { stops: this.agreed(machine) };
    const fits = (stop) => (state === 'all' || stop.state === state) && (!machine || stop.machine === machine);
    return { stops: [...this.all.values()].filter(fits).sort((a, b) => b.begins_at.localeCompare(a.begins_at)) };
  }

  find(id) {
    const stop = this.all.get(id);
    if (!stop) throw new Refusal(404, 'not-found', 'There is no such stop.');
    return stop;
  }

  slot(on, name) {
    if (on < dateOf(0)) throw new Refusal(400, 'bad-input', `on: ${on} is over.`);
    const shift = SHIFTS.find((one) => one.name === name);
    if (!shift) throw new Refusal(400, 'bad-input', `shift: the plant has no shift "${name}".`);
    return { on, shift: name, begins_at: `${on}T${shift.begins}:00Z`, ends_at: `${on}T${shift.ends}:00Z` };
  }

  planned(machine, keys, but) {
    if (keys.length === 0) throw new Refusal(400, 'bad-input', 'tasks: a stop needs a task.');
    const taken = this.agreed(machine.key).find(
      (stop) => stop.id !== but && stop.tasks.some(({ task }) => keys.includes(task)),
    );
    if (taken) throw new Refusal(409, 'conflict', `A task is in the stop of ${taken.on} already.`);
    const tasks = keys.map((key) => this.shop.findTask(machine, key));
    return { tasks: tasks.map(plannedTask), energy: strictest(tasks), minutes: standingMinutes(tasks) };
  }

  note(stop, kind, edit) {
    const told = { stop: { on: stop.on, shift: stop.shift, tasks: stop.tasks.map((task) => task.title) } };
    this.shop.note(this.shop.find(stop.machine), kind, edit, `${kind}: ${stop.on}, ${stop.shift}`, {
      ...{ stop: stop.id, told },
    });
    return structuredClone(stop);
  }

  agree(key, edit) {
    return this.shop.once(edit.id, () => {
      const machine = this.shop.find(key);
      const stop = {
        ...{ id: edit.id, machine: key, ...this.slot(edit.on, edit.shift), ...this.planned(machine, edit.tasks) },
        ...{ state: 'agreed', version: 1, note: edit.note ?? '', by: edit.by, at: new Date().toISOString() },
      };
      this.all.set(stop.id, stop);
      return this.note(stop, 'stop agreed', edit);
    });
  }

  open(id, version) {
    const stop = this.find(id);
    if (stop.state !== 'agreed') throw new Refusal(409, 'stop-closed', `This stop is ${stop.state}.`);
    if (version !== undefined && version !== stop.version)
      throw new Refusal(409, 'stop-changed', 'The stop was changed meanwhile.');
    return stop;
  }

  change(id, edit) {
    return this.shop.once(edit.id, () => {
      const stop = this.open(id, edit.version);
      const machine = this.shop.find(stop.machine);
      const slot = this.slot(edit.on ?? stop.on, edit.shift ?? stop.shift);
      const tasks = this.planned(machine, edit.tasks ?? stop.tasks.map(({ task }) => task), id);
      Object.assign(stop, slot, tasks, { version: stop.version + 1, note: edit.note ?? stop.note });
      return this.note(stop, 'stop changed', edit);
    });
  }

  withdraw(id, edit) {
    return this.shop.once(edit.id, () => {
      const stop = this.open(id);
      const withdrawn = { by: edit.by, at: new Date().toISOString(), why: edit.why };
      Object.assign(stop, { state: 'withdrawn', version: stop.version + 1, withdrawn });
      return this.note(stop, 'stop withdrawn', edit);
    });
  }

  close(id, edit) {
    return this.shop.once(edit.id, () => {
      const stop = this.open(id, edit.version);
      if (edit.ended_at < edit.began_at) throw new Refusal(400, 'bad-input', 'ended_at: lies before the beginning.');
      for (const done of edit.done) this.doTask(stop, done, edit);
      for (const task of stop.tasks) if (task.state === 'planned') task.state = 'left undone';
      const { by, began_at, ended_at, note = '' } = edit;
      const closed = { by, at: new Date().toISOString(), began_at, ended_at, note };
      Object.assign(stop, { state: 'closed', version: stop.version + 1, closed });
      return this.note(stop, 'stop closed', edit);
    });
  }

  doTask(stop, done, edit) {
    const task = stop.tasks.find((one) => one.task === done.task);
    if (!task) throw new Refusal(400, 'bad-input', `done: "${done.task}" is not in this stop.`);
    const sign = { id: done.id, by: done.by ?? edit.by, at: done.at ?? edit.ended_at };
    Object.assign(this.shop.markDone(stop.machine, done.task, sign), { stop: stop.id });
    const said = { done_by: done.by ?? edit.by, done_at: done.at ?? edit.ended_at };
    Object.assign(task, { state: 'done', ...said }, done.as_found ? { as_found: done.as_found } : {});
  }

  card(id) {
    const stop = this.find(id);
    const machine = this.shop.find(stop.machine);
    const { key, name, kind, cell } = machine;
    const known = machine.tasks.filter((one) => stop.tasks.some(({ task }) => task === one.key));
    const order = orderOf(known);
    const keys = order.phases.flatMap(({ works }) => works.map(({ task }) => task));
    const tasks = keys.map((one) => this.shop.task(machine, this.shop.findTask(machine, one)));
    const isIn = (finding) => keys.includes(finding.task);
    const findings = this.shop.findings.open(key).filter(isIn);
    return {
      stop,
      machine: { key, name, kind, cell },
      order,
      tasks,
      kit: kitOf(tasks),
      isolation: ISOLATION,
      findings,
      ...this.serviceOf(machine, keys),
    };
  }

  /** The service of which these tasks are half or more. */
  serviceOf(machine, keys) {
    const { services } = this.shop.kinds.find((one) => one.key === machine.kind);
    const isIt = ({ tasks }) => 2 * tasks.filter((task) => keys.includes(task)).length >= tasks.length;
    const service = services.find(isIt);
    if (service === undefined) return {};
    const { key, title, title_de } = service;
    return { service: { key, title, title_de } };
  }
}

export function routesOfStops(stops, tell) {
  const changed = (stop) => {
    tell(stop.machine);
    return stop;
  };
  return [
    ['GET', /^\/api\/stops$/, (_, __, q) => stops.list(q)],
    ['GET', /^\/api\/stops\/([^/]+)$/, ([s]) => stops.card(s)],
    ['GET', /^\/api\/stops\/([^/]+)\/card\.pdf$/, () => ({ type: 'application/pdf', body: '%PDF-1.4\n%%EOF\n' })],
    ['POST', /^\/api\/machines\/([^/]+)\/stops$/, ([m], body) => changed(stops.agree(m, body))],
    ['POST', /^\/api\/stops\/([^/]+)\/change$/, ([s], body) => changed(stops.change(s, body))],
    ['POST', /^\/api\/stops\/([^/]+)\/withdraw$/, ([s], body) => changed(stops.withdraw(s, body))],
    ['POST', /^\/api\/stops\/([^/]+)\/close$/, ([s], body) => changed(stops.close(s, body))],
  ];
}
