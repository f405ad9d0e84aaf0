import { expect, test } from 'vitest';
import type { Join } from '../../wire/contract';
import { failing, isAllWell, lookAtAll } from './checks';
import type { CheckGround } from './checks';

const join = (more: Partial<Join> = {}): Join => ({
  encrypted: true,
  this_computer: false,
  device: { id: '1', title: 'Phone', enrolled_at: '', enrolled_by: 'Ada', encrypted: true },
  authority: null,
  addresses: [],
  ...more,
});

const ground = (more: Partial<CheckGround> = {}): CheckGround => ({
  isSecure: true,
  takeWorker: () => Promise.resolve(),
  hasWorker: () => Promise.resolve(true),
  isKept: () => Promise.resolve(true),
  ...more,
});

test('a device on which everything works is told so once the camera was tried', async () => {
  const untried = await lookAtAll(join(), ground(), 'open');
  expect([isAllWell(untried), failing(untried)]).toEqual([false, 0]);
  expect(isAllWell(await lookAtAll(join(), ground(), 'yes'))).toBe(true);
});

test('a line that is not encrypted has none of what needs one, and nothing is tried on it', async () => {
  const untouched = ground({
    takeWorker: () => Promise.reject(new Error('it was tried')),
  });
  const verdicts = await lookAtAll(join({ encrypted: false }), untouched, 'open');
  expect(verdicts).toEqual({
    joined: 'yes',
    secure: 'no',
    trusted: 'no',
    worker: 'no',
    kept: 'no',
    camera: 'no',
  });
});

test('a browser that takes no worker does not trust the certificate', async () => {
  const verdicts = await lookAtAll(join(), ground({ takeWorker: () => Promise.reject(new Error('SSL')) }), 'yes');
  expect(verdicts.trusted).toBe('no');
  expect(failing(verdicts)).toBe(1);
});

test('what cannot be asked does not work', async () => {
  const verdicts = await lookAtAll(
    join({ device: null }),
    ground({ hasWorker: () => Promise.resolve(false), isKept: () => Promise.reject(new Error('no storage')) }),
    'yes',
  );
  expect([verdicts.joined, verdicts.worker, verdicts.kept]).toEqual(['no', 'no', 'no']);
});
