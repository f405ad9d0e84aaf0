import { sha256 } from '@noble/hashes/sha2.js';
import { afterEach, expect, test, vi } from 'vitest';
import { digestOf, fitted, hexOf } from './photo';

afterEach(() => vi.unstubAllGlobals());

test('a photo keeps its proportions within 1600 px, and is never made larger', () => {
  expect(fitted(4000, 3000)).toEqual({ width: 1600, height: 1200 });
  expect(fitted(3000, 4000)).toEqual({ width: 1200, height: 1600 });
  expect(fitted(800, 600)).toEqual({ width: 800, height: 600 });
  expect(fitted(10_000, 2)).toEqual({ width: 1600, height: 1 });
});

// FIPS 180-4, example "abc".
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
const abc = new TextEncoder().encode('abc').buffer as ArrayBuffer;

test('the digest is SHA-256 with and without the browser’s own', async () => {
  expect(await digestOf(abc)).toBe(ABC);
  expect(hexOf(sha256(new Uint8Array(abc)))).toBe(ABC);
  vi.stubGlobal('crypto', { getRandomValues: crypto.getRandomValues.bind(crypto) });
  expect(await digestOf(abc)).toBe(ABC);
});
