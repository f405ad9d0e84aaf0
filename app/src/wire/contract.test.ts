import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { format, resolveConfig } from 'prettier';
import { expect, test } from 'vitest';
import { contractText, readContract } from '../../steps/contract.mjs';
import { addressOf } from './client';
import { operations } from './contract';

test('contract.ts is what api/openapi.yaml says; `npm run wire` makes it so', async () => {
  const path = fileURLToPath(new URL('./contract.ts', import.meta.url));
  const made = await format(contractText(readContract()), { ...(await resolveConfig(path)), filepath: path });
  expect(readFileSync(path, 'utf8')).toBe(made);
}, 60_000); // the whole contract is formatted: seconds on a busy computer

test('the maker of types stops at what it does not know', () => {
  const odd = { components: { schemas: { Odd: { type: 'tuple' } } }, paths: {} };
  expect(() => contractText(odd)).toThrow(/does not know/);
});

test('addresses are filled in and escaped', () => {
  expect(addressOf('markDone', { path: { machine: 'm01', task: 'a/b c' } })).toBe(
    '/api/machines/m01/tasks/a%2Fb%20c/done',
  );
  expect(addressOf('days', { path: { machine: 'm01' }, query: { counter: 'travel Xfrt' } })).toBe(
    '/api/machines/m01/days?counter=travel+Xfrt',
  );
  expect(() => addressOf('machine')).toThrow(/needs machine/);
});

test('the app speaks with the operations of the contract only', () => {
  const client = readFileSync(new URL('./client.ts', import.meta.url), 'utf8');
  expect(client).not.toMatch(/'\/api/);
  const outbox = readFileSync(new URL('../outbox/entered.ts', import.meta.url), 'utf8');
  const others = [
    'readiness',
    'metrics',
    'contract',
    'health',
    'events',
    'labels',
    'jobCard',
    'photo',
    'logbookCsv',
    'monthPdf',
    'monthXlsx',
    'authority',
    'orderListCsv',
    'orderListXlsx',
    'orderListPdf',
    'shelfLabels',
    'storesCsv',
    'storesXlsx',
    'shipments',
    'sendPiece',
  ];
  for (const name of Object.keys(operations).filter((one) => !others.includes(one)))
    expect(client.includes(`${name}: (`) || outbox.includes(`  ${name}: { path:`), name).toBe(true);
});
