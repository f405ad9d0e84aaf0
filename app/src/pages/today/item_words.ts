// Each thing that has to be decided as one sentence, with what it risks or rests on, and where its decision is made.

import { leaderOf, leftOf } from '../../parts/bar';
import { printReading } from '../../parts/judge';
import { feedTrouble } from '../../parts/feed_words';
import { forecastWords } from '../../parts/forecast_words';
import { findingWords as findingOf, pressingWords, trendWords } from '../../parts/reading_words';
import { partAmount } from '../../parts/part_amount';
import { kindTitle } from '../../parts/titles';
import {
  countAddress,
  findingAddress,
  logbookAddress,
  machineAddress,
  newFindingAddress,
  partAddress,
  readingAddress,
  roundAddress,
  stopAddress,
  storedPartAddress,
  storesAddress,
  taskAddress,
  taskDateAddress,
} from '../../route.svelte';
import type { TodayItem } from '../../wire/contract';
import { saidIn } from '../../words/sayings';
import { dateIn, day, longDay, moment, plannedDay } from '../../words/times';
import { say } from '../../words/words';
import { adviceWords } from '../lives/life_words';

export interface WordsGround {
  zone: string;
  now: Date;
  currency: string;
  machineName: (key: string) => string;
}

export interface ItemWords {
  sentence: string;
  /** What it risks, or what is known besides; may be empty. */
  more: string;
  /** The button: what it does, and where that is. */
  act: { title: string; address: string };
  /** The working, one tap away; the same as the button where that already shows it. */
  working: { title: string; address: string } | null;
}

function findingWords(item: TodayItem, machine: string): ItemWords {
  const finding = item.finding;
  const owner = finding?.owner ? say('today.owner', { owner: finding.owner }) : say('today.no_owner');
  const due = finding?.due_on ? say('today.finding_due', { date: day(finding.due_on) }) : '';
  return {
    sentence: say('today.finding', { machine, what: finding?.what ?? '' }),
    more: [owner, due].filter(Boolean).join(' '),
    act: { title: say('today.open_finding'), address: findingAddress(finding?.id ?? '') },
    working: null,
  };
}

function taskSentence(item: TodayItem, machine: string): string {
  const { task, forecast } = item;
  const words = { task: task?.title ?? '', machine };
  const leader = task ? leaderOf(task) : undefined;
  const left = leader ? leftOf(leader) : '';
  if (task?.state === 'overdue' && item.overdue_since !== undefined)
    return say('today.overdue_since', { ...words, date: longDay(item.overdue_since), left });
  if (task?.state === 'overdue') return say('today.overdue', { ...words, left });
  if (task?.state === 'due') return say('today.due', { ...words, left });
  return say('today.soon', { ...words, when: forecast && task ? forecastWords(forecast, task.state) : left });
}

function taskWords(item: TodayItem, machine: string): ItemWords {
  const [key, task] = [item.machine ?? '', item.task?.key ?? ''];
  return {
    sentence: taskSentence(item, machine),
    more: item.task?.reason ?? '',
    act: { title: say('today.open_task'), address: taskAddress(key, task) },
    working: { title: say('date.working'), address: taskDateAddress(key, task) },
  };
}

function counterWords(item: TodayItem, machine: string, ground: WordsGround): ItemWords {
  const since = item.silent_since ?? item.feed?.last_sign_at ?? null;
  const when = since === null ? '' : moment(since, ground.zone, ground.now);
  return {
    sentence: when === '' ? say('today.counter', { machine }) : say('today.counter_since', { machine, when }),
    more: [item.feed ? feedTrouble(item.feed) : '', say('today.counter_risk')].filter(Boolean).join(' '),
    act: { title: say('today.open_feed'), address: machineAddress(item.machine ?? '') },
    working: null,
  };
}

function roundWords(item: TodayItem, machine: string, ground: WordsGround): ItemWords {
  const rhythm = item.rhythm ?? 'shift';
  const state = item.turn?.state ?? 'open';
  const answered = item.turn?.walks[0];
  const until = item.turn ? moment(item.turn.ends_at, ground.zone, ground.now) : '';
  const rest = answered
    ? say('today.round_so_far', { answered: answered.answered, of: answered.of, by: answered.by })
    : '';
  return {
    sentence: say(`today.round_${state}`, { machine, round: say(`today.rhythm_${rhythm}`), until }),
    more: rest,
    act: { title: say('today.walk'), address: roundAddress(item.machine ?? '', rhythm) },
    working: null,
  };
}

/** One that is over asks whether it was done, one ahead whether all is ready. */
function stopWords(item: TodayItem, machine: string, ground: WordsGround): ItemWords {
  const stop = item.stop;
  const isOver = stop !== undefined && new Date(stop.ends_at) <= ground.now;
  const words = { machine, when: stop ? moment(stop.begins_at, ground.zone, ground.now) : '' };
  return {
    sentence: say(isOver ? 'today.stop_over' : 'today.stop_ahead', words),
    more: stop?.tasks.map(({ title }) => title).join(', ') ?? '',
    act: { title: say(isOver ? 'today.close_stop' : 'today.open_stop'), address: stopAddress(stop?.id ?? '') },
    working: null,
  };
}

/** One beyond its action limit, or on its way to a limit, that no finding speaks of. */
function readingWords(item: TodayItem, machine: string, ground: WordsGround): ItemWords {
  const [key, line] = [item.machine ?? '', item.reading];
  if (line === undefined) return strayWords(item);
  const today = dateIn(ground.zone, ground.now);
  const last = line.last
    ? say('check.last', {
        value: printReading(line, line.last.value),
        when: moment(line.last.at, ground.zone, ground.now),
        by: line.last.by,
      })
    : '';
  return {
    sentence: say('today.reading', { machine, what: line.what, when: pressingWords(line, today) }),
    more: [trendWords(line), last].filter(Boolean).join('. '),
    act: {
      title: say('trend.make_finding'),
      address: newFindingAddress({
        machine: key,
        point: String(line.point ?? ''),
        check: `${line.task}/${line.what}`,
        what: findingOf(line, today),
      }),
    },
    working: { title: say('trend.title'), address: readingAddress(key, line.task, line.what) },
  };
}

function strayWords(item: TodayItem): ItemWords {
  return {
    sentence: say('today.strays', { count: item.count ?? 0 }),
    more: say('today.stray_means'),
    act: { title: say('today.open_strays'), address: logbookAddress({ stray: 'yes' }) },
    working: null,
  };
}

function intervalWords({ part }: TodayItem, ground: WordsGround): ItemWords {
  const { title = '', kind = '', task = '' } = part ?? {};
  const counts = { lives: part?.lives ?? 0, failures: part?.failures ?? 0, running: part?.running ?? 0 };
  return {
    sentence: say('today.interval', {
      title,
      kind: kindTitle(kind),
      advice: part ? adviceWords(part, ground.currency) : '',
    }),
    more: say('lives.counts', counts),
    act: { title: say('today.open_lives'), address: partAddress(kind, task) },
    working: null,
  };
}

/** Before noon, so that what is needed comes in time. */
function orderWords({ order, noon }: TodayItem, ground: WordsGround): ItemWords {
  const { supplier = '', lines = [] } = order ?? {};
  const reasons = lines.flatMap((line) => line.reasons.slice(0, 1).map(({ saying, text }) => saidIn(saying, text)));
  const until = noon === undefined ? '' : moment(noon, ground.zone, ground.now);
  return {
    sentence: say(order?.due === 'too late' ? 'today.order_late' : 'today.order', {
      ...{ count: lines.length, until },
      supplier: supplier === '' ? say('order.no_supplier') : supplier,
    }),
    more: [
      lines.map(({ title, quantity, unit }) => `${partAmount(quantity, unit)} ${title}`).join(', '),
      reasons[0] ?? '',
    ]
      .filter(Boolean)
      .join('. '),
    act: { title: say('today.open_order'), address: storesAddress({ order: supplier }) },
    working: lines[0] ? { title: say('proposal.working'), address: storedPartAddress(lines[0].part) } : null,
  };
}

function kitWords({ kit, stop }: TodayItem, machine: string): ItemWords {
  const lacking = (kit?.lines ?? []).filter(({ state }) => state === 'short');
  const names = lacking.map(({ name, quantity, taken, reserved, unit }) => {
    return `${partAmount(Math.max(0, quantity - taken - reserved), unit)} ${name}`;
  });
  const on = kit?.on ?? stop?.on ?? '';
  return {
    sentence: say('today.kit', {
      ...{ machine, names: names.join(', ') },
      date: on === '' ? '' : plannedDay(on),
    }),
    more: say('today.kit_means'),
    act: { title: say('today.open_stop'), address: stopAddress(kit?.stop ?? stop?.id ?? '') },
    working: { title: say('stores.title'), address: storesAddress() },
  };
}

function shelfWords({ shelf }: TodayItem): ItemWords {
  const { number = '', title = '', unit = '', place } = shelf?.part ?? {};
  return {
    sentence: say('today.shelf', { title, number, amount: partAmount(-(shelf?.difference ?? 0), unit) }),
    more: place ? say('kit.at', { place }) : '',
    act: { title: say('today.count_it'), address: countAddress(number) },
    working: { title: say('stores.title'), address: storedPartAddress(number) },
  };
}

/** Why is said in the server's words, which come from the disk. */
function copiesWords({ copies }: TodayItem, ground: WordsGround): ItemWords {
  const concern = copies?.concern ?? 'not set up';
  const last = copies?.last_good_at;
  const when = last === undefined ? '' : moment(last, ground.zone, ground.now);
  const lastGood = concern === 'failed' && when !== '' ? say('today.copies_last', { when }) : '';
  return {
    sentence: say(`today.copies_${concern}`, { when }),
    more: [copies?.says ?? '', lastGood, say('today.copies_risk')].filter(Boolean).join(' '),
    act: { title: say('today.open_copies'), address: logbookAddress({}) },
    working: null,
  };
}

export function wordsOf(item: TodayItem, ground: WordsGround): ItemWords {
  const machine = ground.machineName(item.machine ?? '');
  switch (item.kind) {
    case 'finding':
      return findingWords(item, machine);
    case 'task':
      return taskWords(item, machine);
    case 'counter':
      return counterWords(item, machine, ground);
    case 'round':
      return roundWords(item, machine, ground);
    case 'stop':
      return stopWords(item, machine, ground);
    case 'reading':
      return readingWords(item, machine, ground);
    case 'stray':
      return strayWords(item);
    case 'interval':
      return intervalWords(item, ground);
    case 'order':
      return orderWords(item, ground);
    case 'kit':
      return kitWords(item, machine);
    case 'shelf':
      return shelfWords(item);
    case 'copies':
      return copiesWords(item, ground);
  }
}
