import { expect, test } from 'vitest';
import type { Finding } from '../../wire/contract';
import { changeFinding, changesTo, makeFinding, settleFinding } from './edits';

const FINDING: Finding = {
  ...{ id: 'f', machine: 'm01', what: 'Oil', severity: 'watch', state: 'open', owner: 'Ada', due_on: '2026-12-01' },
  ...{ task: null, by: 'Ada', at: '2026-11-25T06:00:00Z', photos: [] },
};
const SAME = { severity: 'watch', owner: 'Ada', due_on: '2026-12-01', task: '' } as const;

test('only what differs is sent, and what was emptied as an empty text', () => {
  expect(changesTo(FINDING, SAME, ' ')).toEqual({});
  expect(changesTo(FINDING, { ...SAME, owner: '', severity: 'at the next stop' }, 'seen again')).toEqual({
    ...{ owner: '', severity: 'at the next stop', note: 'seen again' },
  });
  expect(changesTo(FINDING, { ...SAME, task: 'belt', due_on: '' }, '')).toEqual({ task: 'belt', due_on: '' });
});

test('a new finding names only what was said, and its photos by their digest', () => {
  const photo = { id: 'p', sha256: 'ab', bytes: new ArrayBuffer(3) };
  const said = { machine: 'm01', what: ' Oil ', point: '3', check: '', ...SAME, due_on: '' };
  const { body, path } = makeFinding(said, 'Ada', [photo]);
  expect(path).toEqual({ machine: 'm01' });
  expect(body).toMatchObject({ what: 'Oil', point: 3, photos: [{ id: 'p', sha256: 'ab' }], owner: 'Ada' });
  for (const name of ['due_on', 'task', 'check']) expect(body).not.toHaveProperty(name);
});

test('each press has an id of its own and says when', () => {
  const [first, second] = [settleFinding(FINDING, 'Seal', 'Ada', []), settleFinding(FINDING, 'Seal', 'Ada', [])];
  expect(first.body.id).not.toBe(second.body.id);
  expect(Date.parse(first.body.at)).not.toBeNaN();
  expect(changeFinding(FINDING, { owner: 'Jonas' }, 'Ada').path).toEqual({ finding: 'f' });
});
