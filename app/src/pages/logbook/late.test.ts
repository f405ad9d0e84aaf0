import { expect, test } from 'vitest';
import { lateMs } from './late';

const AT = '2026-11-25T09:00:00Z';

test('what came within a minute is not late', () => {
  expect(lateMs({ at: AT, happened_at: AT })).toBe(0);
  expect(lateMs({ at: AT, happened_at: '2026-11-25T08:59:01Z' })).toBe(0);
});
test('what came from a phone without Wi-Fi says by how much', () => {
  expect(lateMs({ at: AT, happened_at: '2026-11-25T06:00:00Z' })).toBe(3 * 3_600_000);
});
