// An invented shop in memory that answers as api/openapi.yaml says, for developing the pages and for their tests where
// the real server is not built. Tasks come from library/*.toml; hours run 120 times as fast as time, so that numbers move.
import { readdirSync, readFileSync } from 'node:fs';
import { parse } from 'smol-toml';
import { Findings } from './findings.mjs';
import { Dates } from './horizon.mjs';
import { Logbook } from './logbook.mjs';
import { randomFrom, SHARES } from './random.mjs';
import { Refusal } from './refusal.mjs';
import { happenedMs, RoundBook } from './rounds.mjs';
import { Proposals } from './proposals.mjs';
import { Stops } from './stops.mjs';
import { moveOf, walkOf } from './walk.mjs';

const LIBRARY = new URL('../../library/', import.meta.url);
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const RUSH = 120;
const UNDO_MS = 10_000;

export const COUNTER_WORDS = [
  ['powered', 'Powered', 'h', 'Hours in which the machine reports that it is switched on.'],
  ['operating', 'Operating', 'h', 'Hours in which a program runs (Execution is ACTIVE).'],
  ['spindle', 'Spindle', 'h', 'Hours in which a spindle turns.'],
  ['axis', 'Axes', 'h', 'Hours in which an axis moves.'],
  ['cutting', 'Cutting', 'h', 'Hours in which a program runs, the spindle turns and the axes feed.'],
].map(([key, title, unit, definition]) => ({ key, title, unit, definition }));

const CELLS = [
  { key: 'housings', title: 'Housings' },
  { key: 'shafts', title: 'Shafts' },
  { key: 'finishing', title: 'Finishing' },
];
const PEOPLE = [
  { name: 'Ada Brandt', skill: 'technician' },
  { name: 'Jonas Falk', skill: 'operator' },
  { name: 'Mirela Tudor', skill: 'operator' },
  { name: 'Sunniva Aas', skill: 'technician' },
];
const NAMES = (
  'Alder Birch Cedar Dogwood Elm Fir Gorse Hazel Ivy Juniper Koa Larch Maple Nutmeg Oak Pine Quince Rowan Spruce ' +
  'Tamarisk Upas Viburnum Willow Yew'
).split(' ');
const DOINGS = ['cutting', 'running', 'spindle turning', 'cutting', 'standing', 'cutting', 'off', 'running'];

function readSets() {
  return readdirSync(LIBRARY)
    .filter((name) => name.endsWith('.toml'))
    .sort()
    .map((name) => parse(readFileSync(new URL(name, LIBRARY), 'utf8')));
}

const dateOf = (ms) => new Date(ms).toISOString().slice(0, 10);
const instantOf = (ms) => new Date(ms).toISOString();
const SPANS = {
  'start-up': DAY_MS,
  shift: DAY_MS / 2,
  day: DAY_MS,
  week: 7 * DAY_MS,
  month: 30 * DAY_MS,
  year: 365 * DAY_MS,
};

function spanOf(calendar) {
  const found = /^(\d+) (start-up|shift|day|week|month|year)s?$/.exec(calendar);
  return found ? Number(found[1]) * SPANS[found[2]] : null;
}

const URGENCY = ['in hand', 'coming', 'due', 'overdue'];

export class Shop {
  constructor(seed = 7) {
    this.started = Date.now();
    this.random = randomFrom(seed);
    this.seen = new Map(); // entry id -> answer
    this.logbook = new Logbook(this);
    this.findings = new Findings(this);
    this.dates = new Dates(this);
    this.stops = new Stops(this);
    this.proposals = new Proposals(this);
    const sets = readSets();
    this.kinds = sets.map(({ kind, title, title_de, service }) => ({
      ...{ key: kind, title, title_de },
      services: (service ?? []).map(({ task, ...one }) => ({ ...one, tasks: task })),
    }));
    this.machines = NAMES.map((name, index) => this.makeMachine(name, index, sets[index % sets.length]));
    this.rounds = new RoundBook(this);
  }

  makeMachine(name, index, set) {
    const base = 2000 + Math.floor(this.random() * 9000);
    const machine = {
      key: `m${String(index + 1).padStart(2, '0')}`,
      name,
      kind: set.kind,
      cell: CELLS[Math.floor(index / 8)].key,
      note: index % 5 === 0 ? 'Runs unattended on Friday nights.' : '',
      year: 2009 + (index % 14),
      doing: DOINGS[index % DOINGS.length],
      since: this.started - Math.floor(this.random() * 9 * HOUR_MS),
      feed: index === 11 ? 'lost' : index === 17 ? 'catching up' : 'live',
      base: Object.fromEntries(Object.entries(SHARES).map(([key, share]) => [key, base * share])),
      adjusted: {},
      unknown: index % 6 === 5 ? 3.4 : 0.2,
      assemblies: set.assembly.map(({ key, title }) => ({ key, title })),
      points: set.point.map(({ number, assembly, title, x, y }) => ({ number, assembly, title, x, y })),
      tasks: [],
      retired: [],
      entries: [],
      readings: [],
    };
    machine.tasks = set.task.map((task) => this.makeTask(machine, task));
    return machine;
  }

  makeTask(machine, task) {
    const share = 0.02 + 0.94 * Math.sqrt(this.random()) + (this.random() > 0.98 ? 0.3 : 0);
    return {
      key: task.key,
      title: task.title,
      assembly: task.assembly,
      point: task.point,
      work: task.work,
      skill: task.skill,
      energy: task.energy,
      minutes: task.minutes,
      own: false,
      steps: task.steps ?? [],
      reason: task.reason ?? '',
      caution: task.caution ?? '',
      parts: task.parts ?? [],
      ...(task.reading ? { readings: task.reading } : {}),
      ...(task.quantity_unit ? { quantity_unit: task.quantity_unit } : {}),
      version: 1,
      began_at: this.started - 400 * DAY_MS,
      // Nobody reads anything here, so no reading makes a task due.
      triggers: (task.trigger ?? [])
        .filter(({ reading }) => reading === undefined)
        .map((trigger) => ({
          ...trigger,
          then: trigger.counter ? this.total(machine, trigger.counter) - share * trigger.interval : null,
          done_at: trigger.calendar ? this.started - share * (spanOf(trigger.calendar) ?? DAY_MS) : null,
        })),
    };
  }

  elapsedHours(machine) {
    if (machine.doing === 'off' || machine.feed === 'lost') return 0;
    return ((Date.now() - this.started) / HOUR_MS) * RUSH;
  }

  total(machine, counter) {
    const share = SHARES[counter];
    if (share === undefined) return 0;
    return machine.base[counter] + this.elapsedHours(machine) * share + (machine.adjusted[counter] ?? 0);
  }

  counters(machine) {
    return COUNTER_WORDS.map((word) => {
      const total = this.total(machine, word.key);
      const filled = machine.unknown / 2;
      const adjusted = machine.adjusted[word.key] ?? 0;
      return {
        ...word,
        counted: total - filled - adjusted,
        unknown_h: machine.unknown + (machine.feed === 'lost' ? 1.25 : 0),
        filled,
        adjusted,
        total,
        today: 3.1 * SHARES[word.key] + this.elapsedHours(machine) * SHARES[word.key],
        today_unknown_h: machine.feed === 'lost' ? 1.25 : 0,
        since: instantOf(this.started - 400 * DAY_MS),
      };
    });
  }

  counterTrigger(machine, trigger) {
    const counter_now = this.total(machine, trigger.counter);
    const used = counter_now - trigger.then;
    const left = trigger.interval - used;
    const heads_up = trigger.heads_up ?? 0;
    const tolerance = trigger.tolerance ?? 0;
    return {
      counter: trigger.counter,
      unit: 'h',
      interval: trigger.interval,
      heads_up,
      tolerance,
      used,
      left,
      counter_now,
      counter_then: trigger.then,
      state: left < -tolerance ? 'overdue' : left <= 0 ? 'due' : left <= heads_up ? 'coming' : 'in hand',
      share_used: used / trigger.interval,
    };
  }

  calendarTrigger(trigger) {
    const span = spanOf(trigger.calendar) ?? DAY_MS;
    const days_left = Math.ceil((trigger.done_at + span - Date.now()) / DAY_MS);
    const heads_up_days = trigger.heads_up_days ?? 0;
    const tolerance_days = trigger.tolerance_days ?? 0;
    return {
      calendar: trigger.calendar,
      heads_up_days,
      tolerance_days,
      due_on: dateOf(trigger.done_at + span),
      days_left,
      state:
        days_left < -tolerance_days
          ? 'overdue'
          : days_left <= 0
            ? 'due'
            : days_left <= heads_up_days
              ? 'coming'
              : 'in hand',
      share_used: (Date.now() - trigger.done_at) / span,
    };
  }

  task(machine, task) {
    const triggers = task.triggers.map((trigger) =>
      trigger.counter ? this.counterTrigger(machine, trigger) : this.calendarTrigger(trigger),
    );
    const rank = (trigger) => URGENCY.indexOf(trigger.state) * 100 + trigger.share_used;
    const leader = triggers.reduce((best, trigger) => (rank(trigger) > rank(best) ? trigger : best));
    return {
      ...task,
      machine: machine.key,
      began_at: instantOf(task.began_at),
      triggers: triggers.map((trigger) => ({ ...trigger, leads: trigger === leader })),
      state: leader.state,
    };
  }

  floorMachine(machine) {
    const tasks = machine.tasks.map((task) => this.task(machine, task));
    const rank = (task) => URGENCY.indexOf(task.state) * 100 + Math.max(...task.triggers.map((t) => t.share_used));
    const count = (state) => tasks.filter((task) => task.state === state).length;
    return {
      key: machine.key,
      name: machine.name,
      kind: machine.kind,
      cell: machine.cell,
      doing: this.doing(machine),
      feed: this.feed(machine),
      counters: this.counters(machine),
      nearest: tasks.reduce((best, task) => (best === null || rank(task) > rank(best) ? task : best), null),
      tally: { in_hand: count('in hand'), coming: count('coming'), due: count('due'), overdue: count('overdue') },
      findings: this.findings.open(machine.key).map((finding) => finding.severity),
      rounds: this.rounds.standings(machine),
      next_stop: this.nextStop(machine),
    };
  }

  nextStop(machine) {
    const [stop] = this.stops.agreed(machine.key);
    return stop ? { id: stop.id, on: stop.on, shift: stop.shift, energy: stop.energy } : null;
  }

  doing(machine) {
    if (machine.feed === 'lost') return { state: 'not known', since: instantOf(this.started - 75 * 60_000) };
    return { state: machine.doing, since: instantOf(machine.since) };
  }

  feed(machine) {
    const says = { lost: 'The agent has not answered for 75 minutes.', 'catching up': '', live: '' }[machine.feed];
    return {
      state: machine.feed,
      last_sign_at: instantOf(machine.feed === 'lost' ? this.started - 75 * 60_000 : Date.now()),
      behind: machine.feed === 'catching up' ? 1840 : 0,
      says,
      ...(says === '' ? {} : { saying: { code: 'feed-late', texts: {}, numbers: {} } }),
    };
  }

  shop() {
    return {
      plant: { name: 'Quellbach pump works', zone: 'Europe/Berlin', today: dateOf(Date.now()) },
      cells: CELLS,
      kinds: this.kinds,
      people: PEOPLE,
      counter_words: COUNTER_WORDS,
      currency: 'EUR',
      loopback_only: true,
      group: false,
      kept_at_edge: false,
      from_edge_at: null,
      version: '0.1.0',
    };
  }

  floor() {
    return { now: instantOf(Date.now()), machines: this.machines.map((machine) => this.floorMachine(machine)) };
  }

  find(key) {
    const machine = this.machines.find((one) => one.key === key);
    if (!machine) throw new Refusal(404, 'not-found', `There is no machine "${key}"; machines are m01 to m24.`);
    return machine;
  }

  findTask(machine, key) {
    const task = machine.tasks.find((one) => one.key === key);
    if (!task) throw new Refusal(404, 'not-found', `${machine.name} has no task "${key}" in use.`);
    return task;
  }

  machine(key) {
    const machine = this.find(key);
    const { key: own, name, kind, cell, note, year, assemblies, points } = machine;
    return {
      ...{ key: own, name, kind, cell, note, year, assemblies, points },
      doing: this.doing(machine),
      feed: this.feed(machine),
      counters: this.counters(machine),
      walk: machine.walk ?? walkOf(points),
      walk_by_hand: machine.walk !== undefined,
      findings: this.findings.open(own),
      tasks: machine.tasks.map((task) => this.task(machine, task)),
      retired: machine.retired.map((task) => this.task(machine, task)),
      entries: machine.entries.slice(0, 50),
      hour_readings: machine.readings,
    };
  }

  days(key, counter, from, to) {
    const machine = this.find(key);
    const word = COUNTER_WORDS.find((one) => one.key === counter);
    if (!word) throw new Refusal(404, 'not-found', `${machine.name} does not count "${counter}".`);
    const random = randomFrom(machine.base.powered + counter.length);
    const days = [];
    for (let at = Date.parse(from); at <= Date.parse(to); at += DAY_MS) {
      const works = new Date(at).getUTCDay() % 6 !== 0;
      const unknown_h = random() > 0.93 ? 4.5 : 0;
      const counted = works ? (13 + random() * 6) * SHARES[counter] : 0;
      days.push({
        date: dateOf(at),
        counted: Math.max(0, counted - unknown_h / 2),
        unknown_h,
        filled: unknown_h * 0.6,
      });
    }
    return { machine: key, counter, unit: word.unit, days };
  }

  /** The same id again is the same entry: the first answer comes back and nothing changes. */
  once(id, act) {
    if (!this.seen.has(id)) this.seen.set(id, act());
    return this.seen.get(id);
  }

  note(machine, kind, sign, says, more = {}) {
    const entry = this.logbook.add({
      id: sign.id,
      kind,
      machine: machine.key,
      by: sign.by,
      ...(sign.at ? { device_at: sign.at, happened_at: instantOf(happenedMs(sign)) } : {}),
      says,
      counters: Object.fromEntries(COUNTER_WORDS.map((word) => [word.key, this.total(machine, word.key)])),
      ...more,
    });
    machine.entries.unshift(entry);
    return entry;
  }

  movePoints(key, edit) {
    return this.once(edit.id, () => moveOf(this, this.find(key), edit));
  }

  changeWalk(key, edit) {
    return this.once(edit.id, () => {
      const machine = this.find(key);
      if (edit.points.length === 0) delete machine.walk;
      else machine.walk = edit.points;
      const says = edit.points.length === 0 ? 'computed the walking order again' : 'changed the walking order';
      return this.note(machine, 'walk changed', edit, `${edit.by} ${says}.`);
    });
  }

  markDone(key, taskKey, edit) {
    return this.once(edit.id, () => {
      const machine = this.find(key);
      const task = this.findTask(machine, taskKey);
      const before = structuredClone(task);
      for (const trigger of task.triggers) {
        if (trigger.counter) trigger.then = this.total(machine, trigger.counter);
        else trigger.done_at = Date.now();
      }
      const entry = this.note(machine, 'task done', edit, `${task.title} was done by ${edit.by}.`, {
        task: taskKey,
        undo_until: instantOf(Date.now() + UNDO_MS),
        ...(edit.note ? { note: edit.note } : {}),
      });
      task.last_done = entry;
      entry.before = before;
      Object.defineProperty(entry, 'before', { enumerable: false });
      return entry;
    });
  }

  undo(id, sign) {
    return this.once(sign.id, () => {
      const machine = this.machines.find((one) => one.entries.some((entry) => entry.id === id));
      const entry = machine?.entries.find((one) => one.id === id);
      if (!machine || !entry?.before) throw new Refusal(404, 'not-found', 'There is no such entry that can be undone.');
      if (Date.now() > Date.parse(entry.undo_until))
        throw new Refusal(
          409,
          'too-late',
          'The 10 s for undoing are over. Mark the task done again when it has been done.',
        );
      const task = this.findTask(machine, entry.task);
      delete task.last_done;
      Object.assign(task, entry.before);
      entry.undone = true;
      return this.note(machine, 'undone', sign, `Undone: ${entry.says}`, { task: entry.task });
    });
  }

  checkEdit(machine, edit) {
    if (!machine.assemblies.some((one) => one.key === edit.assembly))
      throw new Refusal(400, 'bad-field', `assembly: ${machine.name} has no assembly "${edit.assembly}".`);
    for (const trigger of edit.triggers) {
      if (trigger.calendar !== undefined && spanOf(trigger.calendar) === null)
        throw new Refusal(
          400,
          'bad-field',
          `triggers: "${trigger.calendar}" is no calendar interval; right is "3 months".`,
        );
    }
  }

  begin(machine, trigger) {
    return {
      ...trigger,
      then: trigger.counter ? this.total(machine, trigger.counter) : null,
      done_at: trigger.calendar ? Date.now() : null,
    };
  }

  addTask(key, edit) {
    const { id, by, ...fields } = edit;
    return this.once(id, () => {
      const machine = this.find(key);
      this.checkEdit(machine, edit);
      const task = {
        ...{ steps: [], reason: '', caution: '', parts: [] },
        ...fields,
        key: `own-${id.slice(-8)}`,
        own: true,
        version: 1,
        began_at: Date.now(),
        triggers: fields.triggers.map((trigger) => this.begin(machine, trigger)),
      };
      machine.tasks.push(task);
      this.note(machine, 'task added', { id, by }, `${by} added the task "${task.title}".`, { task: task.key });
      return this.task(machine, task);
    });
  }

  changeTask(key, taskKey, edit) {
    const { id, by, version, ...fields } = edit;
    return this.once(id, () => {
      const machine = this.find(key);
      const task = this.findTask(machine, taskKey);
      this.checkEdit(machine, edit);
      if (version !== task.version)
        throw new Refusal(409, 'version', `"${task.title}" was changed meanwhile: it is at version ${task.version}.`);
      const triggers = fields.triggers.map((trigger) => {
        const old = task.triggers.find((one) => one.counter === trigger.counter && !one.calendar === !trigger.calendar);
        return old ? { ...trigger, then: old.then, done_at: old.done_at } : this.begin(machine, trigger);
      });
      Object.assign(task, fields, { triggers, version: version + 1 });
      this.note(machine, 'task changed', { id, by }, `${by} changed the task "${task.title}".`, { task: taskKey });
      return this.task(machine, task);
    });
  }

  retireTask(key, taskKey, sign) {
    return this.once(sign.id, () => {
      const machine = this.find(key);
      const task = this.findTask(machine, taskKey);
      machine.tasks = machine.tasks.filter((one) => one !== task);
      machine.retired.push(task);
      return this.note(machine, 'task retired', sign, `${sign.by} retired the task "${task.title}".`, {
        task: taskKey,
      });
    });
  }

  readHours(key, edit) {
    return this.once(edit.id, () => {
      const machine = this.find(key);
      const counted_h = this.total(machine, edit.counter);
      const before = machine.readings.find((one) => one.counter === edit.counter);
      const rise = before ? edit.display_h - before.display_h : 0;
      const difference_h = before ? rise - (counted_h - before.counted_h) : 0;
      const fits = Math.abs(difference_h) < 5;
      const reading = {
        id: edit.id,
        counter: edit.counter,
        display_h: edit.display_h,
        read_at: edit.read_at ?? instantOf(Date.now()),
        by: edit.by,
        counted_h,
        ...(before ? { difference_h } : {}),
        state: fits ? 'fits' : 'to be settled',
        says: fits
          ? 'The display and the counted hours rose alike.'
          : `The display moved by ${rise.toFixed(1)} h, the counted hours by ${(counted_h - before.counted_h).toFixed(1)} h.`,
      };
      machine.readings.unshift(reading);
      this.note(machine, 'hours read', edit, `${edit.by} read ${edit.display_h} h (${edit.counter}).`);
      return reading;
    });
  }

  settleReading(key, id, edit) {
    return this.once(edit.id, () => {
      const machine = this.find(key);
      const reading = machine.readings.find((one) => one.id === id);
      if (!reading) throw new Refusal(404, 'not-found', 'There is no such reading.');
      if (reading.state !== 'to be settled') throw new Refusal(409, 'settled', 'This reading is settled already.');
      Object.assign(reading, { state: 'settled', settled_as: edit.settled_as });
      if (edit.settled_as === 'display is right')
        machine.adjusted[reading.counter] = (machine.adjusted[reading.counter] ?? 0) + reading.difference_h;
      this.note(machine, 'hours settled', edit, `${edit.by}: ${edit.settled_as}.`);
      return reading;
    });
  }
}
