import { expect, test } from 'vitest';
import { TypedScan } from './typed_scan';
import type { TypedKey } from './typed_scan';

const ADDRESS = 'http://shop.example:8470/machine/m01';

/** The place of a character's key on an American keyboard. */
function placeOf(character: string): [code: string, shiftKey: boolean] {
  const marks: Record<string, [string, boolean]> = {
    ':': ['Semicolon', true],
    '/': ['Slash', false],
    '.': ['Period', false],
  };
  if (/[a-z]/.test(character)) return [`Key${character.toUpperCase()}`, false];
  return marks[character] ?? [`Digit${character}`, false];
}

/** What a German layout makes of the same keys. */
const german = (text: string) => text.replaceAll(':', 'Ö').replaceAll('/', '-').replaceAll('z', 'y');

function burst(text: string, shown: string, betweenMs: number): TypedKey[] {
  const keys = [...text].map((character, index) => {
    const [code, shiftKey] = placeOf(character);
    return { key: shown[index] ?? character, code, shiftKey, timeStamp: index * betweenMs };
  });
  return [...keys, { key: 'Enter', code: 'Enter', shiftKey: false, timeStamp: keys.length * betweenMs }];
}

const scan = (keys: TypedKey[], into = new TypedScan()) => keys.map((key) => into.take(key)).at(-1);

test('a burst with an address and Enter means its machine', () => {
  expect(scan(burst(ADDRESS, ADDRESS, 8))).toBe('m01');
});
test('a scanner set to the American keyboard is understood on a German one', () => {
  expect(scan(burst(ADDRESS, german(ADDRESS), 8))).toBe('m01');
});
test('typing fingers mean nothing', () => {
  expect(scan(burst(ADDRESS, ADDRESS, 300))).toBeNull();
});
test('another text and Enter mean nothing', () => {
  expect(scan(burst('4006381333931', '4006381333931', 8))).toBeNull();
});
test('keys typed long before do not spoil a burst, and Shift does not either', () => {
  const typed = new TypedScan();
  typed.take({ key: 'x', code: 'KeyX', shiftKey: false, timeStamp: -5000 });
  const keys = burst(ADDRESS, ADDRESS, 8);
  keys.splice(5, 0, { key: 'Shift', code: 'ShiftLeft', shiftKey: true, timeStamp: 5 * 8 - 1 });
  expect(scan(keys, typed)).toBe('m01');
});
test('one Enter takes a burst once', () => {
  const typed = new TypedScan();
  expect(scan(burst(ADDRESS, ADDRESS, 8), typed)).toBe('m01');
  expect(typed.take({ key: 'Enter', code: 'Enter', shiftKey: false, timeStamp: 400 })).toBeNull();
});
