import { expect, test } from 'vitest';
import type { Finding } from '../../wire/contract';
import { fitting, isOverdue, NOBODY, ownedApart } from './order';

const finding = (id: string, more: Partial<Finding>): Finding => ({
  ...{ id, machine: 'm01', what: id, severity: 'watch', state: 'open', owner: null, due_on: null, task: null },
  ...{ by: 'Ada', at: '2026-11-25T06:00:00Z', photos: [] },
  ...more,
});

const ALL = [
  finding('later', { owner: 'Ada', due_on: '2026-12-09' }),
  finding('none', { owner: 'Jonas' }),
  finding('stop', { severity: 'stop the machine', owner: 'Ada', machine: 'm02' }),
  finding('sooner', { due_on: '2026-12-01' }),
];
const ids = (findings: Finding[]) => findings.map((one) => one.id);

test('the most severe stands first, then by due day, without one last', () => {
  expect(ids(fitting(ALL, { machine: '', owner: '' }))).toEqual(['stop', 'sooner', 'later', 'none']);
});
test('by machine and owner, and by nobody', () => {
  expect(ids(fitting(ALL, { machine: 'm02', owner: '' }))).toEqual(['stop']);
  expect(ids(fitting(ALL, { machine: '', owner: 'Ada' }))).toEqual(['stop', 'later']);
  expect(ids(fitting(ALL, { machine: 'm01', owner: NOBODY }))).toEqual(['sooner']);
});
test('what nobody owns is apart', () => {
  const { unowned, owned } = ownedApart(ALL);
  expect([ids(unowned), ids(owned)]).toEqual([['sooner'], ['later', 'none', 'stop']]);
});
test('overdue is an open finding whose day is over', () => {
  const due = finding('due', { due_on: '2026-11-25' });
  expect(isOverdue(due, '2026-11-25')).toBe(false);
  expect(isOverdue(due, '2026-11-26')).toBe(true);
  expect(isOverdue({ ...due, state: 'settled' }, '2026-11-26')).toBe(false);
  expect(isOverdue(finding('none', {}), '2026-11-26')).toBe(false);
});
