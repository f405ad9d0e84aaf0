import { expect, test } from 'vitest';
import { kindOf } from './kinds';

test('a phone is known by what its browser says of itself', () => {
  expect(kindOf('Mozilla/5.0 (Linux; Android 14; K) Mobile')).toBe('android');
  expect(kindOf('Mozilla/5.0 (X; CPU X OS 17_5 like Mac OS X) Mobile')).toBe('ios');
  expect(kindOf('Mozilla/5.0 (X11; Linux x86_64)')).toBe('other');
  expect(kindOf('')).toBe('other');
});
