// What a press on the round's page puts into the outbox: the answer, before it the beginning of the walk where it is the
// walk's first, and with it the finding. All of one press is kept together or not at all.

import type { Entered } from '../../outbox/entered';
import type { CheckAnswer, PhotoName, Rhythm, RoundCheck, Severity } from '../../wire/contract';
import { newId } from '../../wire/uuid';

export interface Walker {
  machine: string;
  rhythm: Rhythm;
  by: string;
  /** The walk to go on with; null: this press begins one. */
  walk: string | null;
  /** The keys of all checks, as the device knows the round. */
  checks: string[];
  /** By the device's clock. */
  at: string;
}

/** What a person says of a finding. */
export interface NewFinding {
  what: string;
  severity: Severity;
  owner: string;
  photos: PhotoName[];
}

export type Answered = Pick<CheckAnswer, 'answer' | 'value' | 'quantity'>;

type Some<Value> = [Value, ...Value[]];

/** The answers, and before them the beginning of the walk where there was none. */
function onWalk(walker: Walker, walk: string, answers: CheckAnswer[], others: boolean, what: string): Some<Entered> {
  const { machine, rhythm, by, at, checks } = walker;
  const path = { machine, rhythm };
  const answered: Entered = {
    ...{ operation: 'answerChecks', path, about: { machine, what } },
    body: { id: newId(), by, at, walk, others, answers },
  };
  if (walker.walk !== null) return [answered];
  return [{ operation: 'beginWalk', path, body: { id: walk, by, at, checks }, about: { machine, what: '' } }, answered];
}

/** The finding's words stand in the answer too, so that the round tells what was found. */
function answerTo(check: RoundCheck, answered: Answered, note: string): CheckAnswer {
  return {
    check: check.key,
    kind: check.kind,
    title: check.title,
    ...(answered.value === undefined ? {} : { unit: check.reading?.unit ?? '' }),
    ...answered,
    ...(note === '' ? {} : { note }),
  };
}

function findingAt(check: RoundCheck, found: NewFinding, walker: Walker, walk: string): Entered {
  const { machine, by, at } = walker;
  const { what, severity, owner, photos } = found;
  return {
    operation: 'makeFinding',
    path: { machine },
    body: {
      ...{ id: newId(), by, at, what, severity, check: check.key, walk },
      ...(owner === '' ? {} : { owner }),
      ...(check.point === undefined ? {} : { point: check.point }),
      ...(photos.length === 0 ? {} : { photos }),
    },
    about: { machine, what },
  };
}

/** One check, with a finding or without. */
export function answerOne(
  walker: Walker,
  check: RoundCheck,
  answered: Answered,
  found: NewFinding | null,
): Some<Entered> {
  const walk = walker.walk ?? newId();
  const entered = onWalk(walker, walk, [answerTo(check, answered, found?.what ?? '')], false, check.title);
  return found ? [...entered, findingAt(check, found, walker, walk)] : entered;
}

/** All that nobody has answered, by one press: each is as it should be, and a reading was not read. */
export function answerOthers(walker: Walker, open: readonly RoundCheck[]): Some<Entered> {
  const answers = open.map((check) => answerTo(check, { answer: 'as it should be' }, ''));
  return onWalk(walker, walker.walk ?? newId(), answers, true, '');
}
