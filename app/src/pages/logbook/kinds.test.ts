import { expect, test } from 'vitest';
import { enumsOf, readContract } from '../../../steps/contract.mjs';
import { ENTRY_KINDS } from './kinds';

test('every kind of entry that the contract has can be chosen, once', () => {
  expect([...ENTRY_KINDS].sort()).toEqual([...(enumsOf(readContract())['EntryKind'] ?? [])].sort());
});
