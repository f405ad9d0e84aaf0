import { expect, test } from 'vitest';
import { newId } from './uuid';

test('an id is a UUID of version 7', () => {
  expect(newId()).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});
test('ids sort by time and begin with it', () => {
  const early = newId(Date.parse('2026-11-25T05:30:00Z'));
  const late = newId(Date.parse('2026-11-25T05:30:01Z'));
  expect(early < late).toBe(true);
  expect(Number.parseInt(early.replaceAll('-', '').slice(0, 12), 16)).toBe(Date.parse('2026-11-25T05:30:00Z'));
});
test('a thousand ids of one moment differ', () => {
  expect(new Set(Array.from({ length: 1000 }, () => newId(0))).size).toBe(1000);
});
