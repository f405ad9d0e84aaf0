// What a person says about a finding, as the outbox takes it.

import type { Entered, TakenPhoto } from '../../outbox/entered';
import type { Finding, FindingChange, PhotoName, Severity } from '../../wire/contract';
import { newId } from '../../wire/uuid';
import { instantNow } from '../../words/times';

const sign = (by: string) => ({ id: newId(), by, at: instantNow() });

function named(photos: readonly TakenPhoto[]): { photos?: PhotoName[] } {
  if (photos.length === 0) return {};
  return { photos: photos.map(({ id, sha256 }) => ({ id, sha256 })) };
}

/** Fields as a form has them: '' where there is nothing. */
export interface FindingFieldsSaid {
  severity: Severity;
  owner: string;
  due_on: string;
  task: string;
}

export interface NewFindingSaid extends FindingFieldsSaid {
  machine: string;
  what: string;
  point: string;
  check: string;
}

/** Only what is something. */
function some(fields: Record<string, string>): Record<string, string> {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== ''));
}

export function makeFinding(said: NewFindingSaid, by: string, photos: readonly TakenPhoto[]): Entered<'makeFinding'> {
  const { machine, what, severity, owner, due_on, task, check, point } = said;
  return {
    operation: 'makeFinding',
    path: { machine },
    body: {
      ...sign(by),
      ...{ what: what.trim(), severity },
      ...some({ owner, due_on, task, check }),
      ...(point === '' ? {} : { point: Number(point) }),
      ...named(photos),
    },
    about: { machine, what: what.trim() },
  };
}

/** What differs from the finding as it stands; an emptied field is sent as an empty text. */
export function changesTo(finding: Finding, said: FindingFieldsSaid, note: string): Partial<FindingChange> {
  return {
    ...(said.severity === finding.severity ? {} : { severity: said.severity }),
    ...(said.owner === (finding.owner ?? '') ? {} : { owner: said.owner }),
    ...(said.due_on === (finding.due_on ?? '') ? {} : { due_on: said.due_on }),
    ...(said.task === (finding.task ?? '') ? {} : { task: said.task }),
    ...(note.trim() === '' ? {} : { note: note.trim() }),
  };
}

const about = (finding: Finding) => ({ machine: finding.machine, what: finding.what });

export function changeFinding(
  finding: Finding,
  changes: Partial<FindingChange>,
  by: string,
  photos: readonly TakenPhoto[] = [],
): Entered<'changeFinding'> {
  const body = { ...changes, ...sign(by), ...named(photos) };
  return { operation: 'changeFinding', path: { finding: finding.id }, body, about: about(finding) };
}

export function settleFinding(
  finding: Finding,
  done: string,
  by: string,
  photos: readonly TakenPhoto[],
): Entered<'settleFinding'> {
  const body = { ...sign(by), done: done.trim(), ...named(photos) };
  return { operation: 'settleFinding', path: { finding: finding.id }, body, about: about(finding) };
}

export function reopenFinding(finding: Finding, why: string, by: string): Entered<'reopenFinding'> {
  const body = { ...sign(by), why: why.trim() };
  return { operation: 'reopenFinding', path: { finding: finding.id }, body, about: about(finding) };
}
