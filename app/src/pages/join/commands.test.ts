import { expect, test } from 'vitest';
import type { Join } from '../../wire/contract';
import { encryptedAddress, hasEncrypted, leftOf, namesIn, spacedCode, spacedFingerprint } from './commands';

const join = (...addresses: string[]): Join => ({
  encrypted: false,
  this_computer: false,
  device: null,
  authority: null,
  addresses,
});

test('the encrypted address is that of the name by which the phone came', () => {
  const both = join('https://shop.example:8471', 'https://192.168.1.20:8471', 'http://shop.example:8470');
  expect(encryptedAddress(both, '192.168.1.20')).toBe('https://192.168.1.20:8471');
  expect(encryptedAddress(both, 'other.example')).toBe('https://shop.example:8471');
  expect(encryptedAddress(join('http://shop.example:8470'), 'shop.example')).toBe('');
  expect(encryptedAddress(join(), 'shop.example')).toBe('');
  expect([hasEncrypted(both), hasEncrypted(join('http://shop.example'))]).toEqual([true, false]);
  expect(namesIn(both)).toBe('shop.example, 192.168.1.20');
});

test('codes and fingerprints are in groups', () => {
  expect(spacedFingerprint('0a1bff')).toBe('0A:\u200b1B:\u200bFF');
  expect(spacedCode('K7RW3DXM')).toBe('K7RW\u00a03DXM');
});

test('what is left of a code never goes below zero', () => {
  const until = '2026-11-25T06:45:00Z';
  expect(leftOf(until, Date.parse('2026-11-25T06:30:40Z'))).toEqual({ minutes: 14, seconds: 20 });
  expect(leftOf(until, Date.parse('2026-11-25T06:44:58.5Z'))).toEqual({ minutes: 0, seconds: 1 });
  expect(leftOf(until, Date.parse('2026-11-25T06:50:00Z'))).toEqual({ minutes: 0, seconds: 0 });
});
