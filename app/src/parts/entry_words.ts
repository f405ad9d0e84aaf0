// What an entry of the logbook says, in the language of the pages: put together from its pieces, as the server does in
// English (src/service). An entry that lacks a piece keeps the server's sentence.

import type { Entry, EntryKind, EntryTold, GivenAnswer, StopTold, StoresTold, ToldLine } from '../wire/contract';
import { saidIn } from '../words/sayings';
import { longDay } from '../words/times';
import { amount, plainAmount, say } from '../words/words';
import { answerWords } from './answer_words';
import { judgementOf } from './judge';
import { partAmount, partName } from './part_amount';
import { counterTitle } from './titles';

/** null: a piece is missing. */
type Teller = (entry: Entry, told: EntryTold) => string | null;

/** A judgement names the value too. */
const judgedWords = (given: GivenAnswer) => (given.state === undefined ? answerWords(given) : judgementOf(given));

function changesIn({ photos }: Entry, told: EntryTold): string {
  const { severity, owner, due_on, settling_task: task } = told;
  const changes = [
    severity === undefined ? '' : say('told.severity', { severity: say(`severity.${severity}`) }),
    owner === undefined ? '' : owner === '' ? say('told.no_owner') : say('told.owner', { owner }),
    due_on === undefined ? '' : due_on === '' ? say('told.no_due_on') : say('told.due_on', { date: longDay(due_on) }),
    task === undefined ? '' : task === '' ? say('told.no_task') : say('told.task', { task }),
    photos?.length ? say('told.photos', { count: photos.length }) : '',
  ].filter(Boolean);
  return changes.length > 0 ? changes.join('; ') : say('told.note');
}

/** The program tells who decides, since it does not decide itself. */
const withWhoDecides = (says: string, told: EntryTold) =>
  told.severity === 'stop the machine' ? say('told.who_decides', { says }) : says;

function taskTold({ kind }: Entry, { title, version }: EntryTold): string | null {
  return title === undefined || version === undefined
    ? null
    : say(`entry_says.${kind as 'task added'}`, { title, version });
}

function displayTold({ kind }: Entry, { display }: EntryTold): string | null {
  if (display === undefined) return null;
  const shown = { hours: amount(display.display_h, 'h'), counter: counterTitle(display.counter) };
  if (kind === 'hours read') return say('entry_says.hours read', { ...shown, verdict: saidIn(display.verdict, '') });
  if (display.settled_as === undefined) return null;
  return say('entry_says.hours settled', { ...shown, settled_as: say(`settled.${display.settled_as}`) });
}

function findingMade(_: Entry, told: EntryTold): string | null {
  const { severity, what, unlinked } = told;
  if (severity === undefined || what === undefined) return null;
  const says = withWhoDecides(say('entry_says.finding made', { severity: say(`severity.${severity}`), what }), told);
  return unlinked ? say('told.unlinked', { says, why: saidIn(unlinked, '') }) : says;
}

function useTold({ kind }: Entry, { use, why }: EntryTold): string | null {
  if (use === undefined) return null;
  const said = { from: longDay(use.from), factor: use.factor, why: why ?? '' };
  if (kind === 'use withdrawn') return say('entry_says.use withdrawn', said);
  return use.until === undefined
    ? say('entry_says.use announced', said)
    : say('told.announced_until', { ...said, until: longDay(use.until) });
}

/** "stop of 7 March 2026, early". */
const stopName = (on: string, shift: string) =>
  shift === '' ? say('told.stop', { date: longDay(on) }) : say('told.stop_shift', { date: longDay(on), shift });

function stopChanges({ to_on, to_shift, tasks }: StopTold): string {
  const changes = [
    to_on === undefined ? '' : say('told.stop_now', { stop: stopName(to_on, to_shift ?? '') }),
    tasks === undefined ? '' : say('told.stop_tasks', { tasks: tasks.join(', ') }),
  ].filter(Boolean);
  return changes.length > 0 ? changes.join('; ') : say('told.note');
}

function stopTold({ kind }: Entry, { stop: told, why }: EntryTold): string | null {
  if (told === undefined) return null;
  const stop = stopName(told.on, told.shift);
  if (kind === 'stop changed') return say('entry_says.stop changed', { stop, changes: stopChanges(told) });
  if (kind === 'stop withdrawn') return say('entry_says.stop withdrawn', { stop, why: why ?? '' });
  if (kind === 'stop agreed') return say('entry_says.stop agreed', { stop, tasks: (told.tasks ?? []).join(', ') });
  if (told.done === undefined || told.of === undefined) return null;
  return say('entry_says.stop closed', { stop, done: told.done, of: told.of });
}

function doneTold({ doing }: Entry, { title }: EntryTold): string | null {
  if (title === undefined) return null;
  return doing?.as_found === undefined
    ? say('entry_says.task done', { title })
    : say('told.done_found', { title, found: say(`as_found.${doing.as_found}`) });
}

function intervalTold(_: Entry, { title, interval, why }: EntryTold): string | null {
  if (title === undefined || interval === undefined) return null;
  return say('entry_says.interval moved', {
    title,
    from: plainAmount(interval.from, interval.unit),
    to: plainAmount(interval.to, interval.unit),
    counter: counterTitle(interval.counter),
    failures: interval.failures,
    lives: interval.lives,
    why: why ?? '',
  });
}

function lineWords({ part, title, quantity, unit }: ToldLine): string {
  const name = partName({ number: part, title });
  return quantity === undefined ? name : `${partAmount(quantity, unit ?? '')} ${name}`;
}

/** "2 pieces Return filter (F-104), 1 set Seals (S-7) and 3 more" */
function partsWords({ parts: count, lines }: StoresTold): string {
  const parts = lines.map(lineWords).join(', ');
  return count > lines.length ? say('told.parts_more', { parts, count: count - lines.length }) : parts;
}

function stockMoved(_: Entry, { stores }: EntryTold): string | null {
  if (stores?.kind === undefined) return null;
  return say('entry_says.stock moved', { kind: say(`told.moved_${stores.kind}`), parts: partsWords(stores) });
}

function orderTold({ kind }: Entry, { stores }: EntryTold): string | null {
  if (stores?.supplier === undefined) return null;
  const { supplier, confirmed_on: on } = stores;
  if (kind === 'order placed') return say('entry_says.order placed', { supplier, parts: partsWords(stores) });
  const changes = on === undefined ? say('told.rest_ended') : say('told.confirmed', { date: longDay(on) });
  return say('entry_says.order changed', { supplier, changes });
}

function partTold({ kind }: Entry, { stores }: EntryTold): string | null {
  if (stores === undefined || stores.lines.length === 0) return null;
  return say(`entry_says.${kind as 'part kept'}`, { parts: partsWords(stores) });
}

const countTold = ({ kind }: Entry, { stores }: EntryTold): string | null =>
  stores === undefined ? null : say(`entry_says.${kind as 'sheet read'}`, { count: stores.parts });

const TELLERS: Readonly<Record<EntryKind, Teller>> = {
  'task done': doneTold,
  'task added': taskTold,
  'task changed': taskTold,
  'task retired': taskTold,
  undone: (_, { title }) => (title === undefined ? null : say('entry_says.undone', { title })),
  'hours read': displayTold,
  'hours settled': displayTold,
  'round begun': ({ rhythm }, { checks }) =>
    rhythm === undefined || checks === undefined
      ? null
      : say('entry_says.round begun', { rhythm: say(`rhythm.${rhythm}`), count: checks }),
  'check answered': ({ answers }) =>
    answers?.[0]
      ? say('entry_says.check answered', { title: answers[0].title, answer: judgedWords(answers[0]) })
      : null,
  'others as they should be': ({ answers }) =>
    answers === undefined
      ? null
      : say('entry_says.others as they should be', { titles: answers.map(({ title }) => title).join('; ') }),
  'finding made': findingMade,
  'finding changed': (entry, told) =>
    told.title === undefined
      ? null
      : withWhoDecides(say('entry_says.finding changed', { title: told.title, changes: changesIn(entry, told) }), told),
  'finding settled': (_, { title, done }) =>
    title === undefined || done === undefined ? null : say('entry_says.finding settled', { title, done }),
  'finding reopened': (_, { title, why }) =>
    title === undefined || why === undefined ? null : say('entry_says.finding reopened', { title, why }),
  correction: (_, { corrects_ordinal: ordinal, right }) =>
    ordinal === undefined || right === undefined
      ? null
      : say('entry_says.correction', { ordinal: String(ordinal), right }),
  'points moved': (_, { points }) =>
    points === undefined
      ? null
      : say('entry_says.points moved', { points: points.map(({ number }) => number).join(', ') }),
  'walk changed': (_, { order }) => {
    if (order === undefined) return null;
    return order.length === 0 ? say('told.walk_computed') : say('entry_says.walk changed', { order: order.join(', ') });
  },
  'use announced': useTold,
  'interval moved': intervalTold,
  'use withdrawn': useTold,
  'stop agreed': stopTold,
  'stop changed': stopTold,
  'stop withdrawn': stopTold,
  'stop closed': stopTold,
  'part kept': partTold,
  'part ended': partTold,
  'stores begun': countTold,
  'sheet read': countTold,
  'kit kept': (entry, told) => (told.stores?.lines.length === 0 ? say('told.kit_none') : partTold(entry, told)),
  'stock moved': stockMoved,
  'order placed': orderTold,
  'order changed': orderTold,
};

export function entryWords(entry: Entry): string {
  return TELLERS[entry.kind](entry, entry.told ?? {}) ?? entry.says;
}

/** Why an entry could not count for what it was meant for. */
export const strayWords = (entry: Entry) => saidIn(entry.stray_saying, entry.stray ?? '');
