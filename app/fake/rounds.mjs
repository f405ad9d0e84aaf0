// Rounds of the invented shop, roughly as the server keeps them: two shifts of twelve hours, the turn
// before was missed at every fifth machine, and a walk belongs to the turn that runs when it is heard of.
import { Refusal } from './refusal.mjs';

const HOUR_MS = 3_600_000;
const LENGTHS = { 'before start-up': 24 * HOUR_MS, shift: 12 * HOUR_MS, day: 24 * HOUR_MS, week: 168 * HOUR_MS };
const PAST = 3;
const KINDS = { clean: 'clean', 'top up': 'top up' };

const instantOf = (ms) => new Date(ms).toISOString();
const known = (value) => Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined));

/** When it was entered, by the server's clock. */
export function happenedMs({ at, sent_at }) {
  if (!at) return Date.now();
  const off = sent_at ? Date.parse(sent_at) - Date.now() : 0;
  return Math.min(Date.parse(at) - off, Date.now());
}

function rhythmOf(task) {
  if (task.skill !== 'operator') return null;
  const called = task.triggers.map((trigger) => /^1 (start-up|shift|day|week)$/.exec(trigger.calendar ?? '')?.[1]);
  return Object.keys(LENGTHS).find((rhythm) => called.includes(rhythm.replace('before ', ''))) ?? null;
}

function judge(reading, value) {
  const beyond = (bounds) => bounds && (value < (bounds.min ?? -Infinity) || value > (bounds.max ?? Infinity));
  if (!reading.warning && !reading.action) return 'not judged';
  return beyond(reading.action) ? 'action' : beyond(reading.warning) ? 'warning' : 'as it should be';
}

export class RoundBook {
  constructor(shop) {
    this.shop = shop;
    this.walks = [];
  }

  checksOf(machine, rhythm) {
    return machine.tasks
      .filter((task) => rhythmOf(task) === rhythm)
      .flatMap((task) => this.checksOfTask(machine, task));
  }

  checksOfTask(machine, task) {
    const { key, title, point, steps, caution } = task;
    const work = known({ key, task: key, kind: KINDS[task.work] ?? 'look', title, point, steps, caution, last: [] });
    const unit = task.quantity_unit ?? task.parts[0]?.unit;
    if (work.kind === 'top up' && unit) work.quantity_unit = unit;
    const readings = (task.readings ?? []).map((reading) => ({
      ...work,
      ...{ key: `${key}/${reading.what}`, kind: 'reading', reading, last: this.lastOf(machine, reading) },
    }));
    const isReadOnly = readings.length > 0 && ['inspect', 'measure'].includes(task.work);
    return isReadOnly ? readings : [work, ...readings];
  }

  /** Ten readings that wander between the warning limits. */
  lastOf(machine, reading) {
    const { min, max } = reading.warning ?? { min: 20, max: 40 };
    const low = min ?? max * 0.6;
    const high = max ?? min * 1.15;
    return Array.from({ length: 10 }, (_, index) => {
      const value = Number((low + (high - low) * (0.9 - index * 0.07 + 0.1 * Math.sin(index * 2))).toFixed(1));
      const at = instantOf(this.shop.started - (10 - index) * 12 * HOUR_MS);
      return { value, state: judge(reading, value), at, by: 'Mirela Tudor' };
    });
  }

  turn(machine, rhythm, before = 0) {
    const length = LENGTHS[rhythm];
    const begin = Math.floor(this.shop.started / length) * length - before * length;
    const walks = this.walks.filter((one) => one.machine === machine.key && one.rhythm === rhythm && before === 0);
    const standing = this.standingAnswers(walks);
    const of = this.checksOf(machine, rhythm).length;
    const missed = (Number(machine.key.slice(1)) + before) % 5 === 0 ? 'missed' : 'walked';
    return {
      on: instantOf(begin).slice(0, 10),
      shift: rhythm === 'shift' ? (begin % (24 * HOUR_MS) === 0 ? 'early' : 'late') : '',
      begins_at: instantOf(begin),
      ends_at: instantOf(begin + length + (before === 0 ? 24 * HOUR_MS : 0)),
      state: before > 0 ? missed : standing.length >= of ? 'walked' : 'open',
      walks: walks.map(({ walk, by, began_at, of: set, answers }) => ({
        ...{ walk, by, began_at, of: set },
        answered: new Set(answers.map((answer) => answer.check)).size,
      })),
      answers: standing,
    };
  }

  standingAnswers(walks) {
    const latest = new Map();
    const all = walks.flatMap((one) => one.answers).sort((a, b) => a.at.localeCompare(b.at));
    for (const answer of all) latest.set(answer.check, answer);
    return [...latest.values()];
  }

  roundsOf(machine) {
    return Object.keys(LENGTHS)
      .map((rhythm) => ({
        ...{ rhythm, checks: this.checksOf(machine, rhythm), now: this.turn(machine, rhythm) },
        past: Array.from({ length: rhythm === 'before start-up' ? 0 : PAST }, (_, index) => ({
          ...this.turn(machine, rhythm, index + 1),
          answers: [],
        })),
      }))
      .filter((round) => round.checks.length > 0);
  }

  rounds(only) {
    const machines = only === null ? this.shop.machines : [this.shop.find(only)];
    return {
      now: instantOf(Date.now()),
      machines: machines.map((machine) => {
        const { key, name, kind, cell, points } = machine;
        return { machine: key, name, kind, cell, points, rounds: this.roundsOf(machine) };
      }),
    };
  }

  standings(machine) {
    return this.roundsOf(machine).map(({ rhythm, now }) => ({ rhythm, state: now.state }));
  }

  walkOf(machine, rhythm, walk, by, atMs) {
    const there = this.walks.find((one) => one.walk === walk);
    if (there) return there;
    const fresh = { machine: machine.key, rhythm, walk, by, began_at: instantOf(atMs), of: 0, answers: [] };
    this.walks.push(fresh);
    return fresh;
  }

  beginWalk(key, rhythm, edit) {
    return this.shop.once(edit.id, () => {
      const machine = this.shop.find(key);
      this.walkOf(machine, rhythm, edit.id, edit.by, happenedMs(edit)).of = edit.checks.length;
      return this.shop.note(machine, 'round begun', edit, `${edit.by} set out on the round.`, {
        walk: edit.id,
        rhythm,
      });
    });
  }

  answerChecks(key, rhythm, edit) {
    return this.shop.once(edit.id, () => {
      const machine = this.shop.find(key);
      const at = instantOf(happenedMs(edit));
      const checks = this.checksOf(machine, rhythm);
      const answers = edit.answers.map((answer) => this.given(checks, answer, { by: edit.by, at, walk: edit.walk }));
      this.walkOf(machine, rhythm, edit.walk, edit.by, Date.parse(at)).answers.push(...answers);
      const kind = edit.others ? 'others as they should be' : 'check answered';
      const says = answers.map((answer) => answer.title).join(', ');
      return this.shop.note(machine, kind, edit, `${edit.by}: ${says}.`, { walk: edit.walk, rhythm, answers });
    });
  }

  given(checks, answer, sign) {
    const check = checks.find((one) => one.key === answer.check);
    if (answer.value !== undefined && answer.unit !== check?.reading?.unit)
      throw new Refusal(400, 'bad-input', `answers: ${answer.check} is read in ${check?.reading?.unit}.`);
    const state = check?.reading && answer.value !== undefined ? judge(check.reading, answer.value) : undefined;
    return known({ ...answer, title: check?.title ?? answer.title ?? '', task: check?.task, state, ...sign });
  }
}
