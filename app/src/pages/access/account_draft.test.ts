import { expect, test } from 'vitest';
import { draftOf, editOf, wrongsOf } from './account_draft';

test('outside service needs machines and a last day, and only it is limited to machines', () => {
  const draft = { ...draftOf(), name: ' Jo Berg ', role: 'outside' as const };
  expect(Object.keys(wrongsOf(draft))).toEqual(['machines', 'until']);
  const limited = { ...draft, machines: ['m01'], until: '2026-12-01' };
  expect(wrongsOf(limited)).toEqual({});
  expect(editOf(limited)).toEqual({ name: 'Jo Berg', role: 'outside', machines: ['m01'], until: '2026-12-01' });
  expect(editOf({ ...limited, role: 'operator', until: '' })).toEqual({ name: 'Jo Berg', role: 'operator' });
});

test('a name is wanted, of 60 characters at most', () => {
  expect(wrongsOf(draftOf())).toEqual({ name: true });
  expect(wrongsOf({ ...draftOf(), name: 'x'.repeat(61) })).toEqual({ name: true });
  expect(wrongsOf({ ...draftOf(), name: 'x'.repeat(60) })).toEqual({});
});
