import { expect, test, vi } from 'vitest';
import { TypedScan } from './typed_scan';
import type { TypedKey } from './typed_scan';

// The addresses come with the route, which looks at the window when it is loaded.
vi.hoisted(() => vi.stubGlobal('window', { location: { href: 'http://shop/' } }));

const ADDRESS = 'http://shop.example:8470/machine/m01';

/** The place of a character's key on an American keyboard. */
function placeOf(character: string): [code: string, shiftKey: boolean] {
  const marks: Record<string, [string, boolean]> = {
    ':': ['Semicolon', true],
    '/': ['Slash', false],
    '.': ['Period', false],
    '-': ['Minus', false],
  };
  if (/[a-z]/i.test(character)) return [`Key${character.toUpperCase()}`, /[A-Z]/.test(character)];
  return marks[character] ?? [`Digit${character}`, false];
}

/** What a German layout makes of the same keys. */
const german = (text: string) =>
  text.replaceAll('-', 'ß').replaceAll(':', 'Ö').replaceAll('/', '-').replaceAll('z', 'y');

function burst(text: string, shown: string, betweenMs: number): TypedKey[] {
  const keys = [...text].map((character, index) => {
    const [code, shiftKey] = placeOf(character);
    return { key: shown[index] ?? character, code, shiftKey, timeStamp: index * betweenMs };
  });
  return [...keys, { key: 'Enter', code: 'Enter', shiftKey: false, timeStamp: keys.length * betweenMs }];
}

const scan = (keys: TypedKey[], into = new TypedScan()) => keys.map((key) => into.take(key)).at(-1);

test('a burst with an address and Enter means its machine', () => {
  expect(scan(burst(ADDRESS, ADDRESS, 8))).toBe('/machine/m01');
});
test('a scanner set to the American keyboard is understood on a German one', () => {
  expect(scan(burst(ADDRESS, german(ADDRESS), 8))).toBe('/machine/m01');
});
test('the label of a shelf leads to the count of its part, on a German keyboard too', () => {
  const address = 'http://shop.example:8470/stores/F-104';
  expect(scan(burst(address, address, 8))).toBe('/stores/F-104?count=yes');
  expect(scan(burst(address, german(address), 8))).toBe('/stores/F-104?count=yes');
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
  expect(scan(keys, typed)).toBe('/machine/m01');
});
test('one Enter takes a burst once', () => {
  const typed = new TypedScan();
  expect(scan(burst(ADDRESS, ADDRESS, 8), typed)).toBe('/machine/m01');
  expect(typed.take({ key: 'Enter', code: 'Enter', shiftKey: false, timeStamp: 400 })).toBeNull();
});
