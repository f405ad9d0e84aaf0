// The same cases as src/condition/typed_reading_test.cpp: what is taken here must be taken there.
import { expect, test } from 'vitest';
import type { TaskReading } from '../wire/contract';
import { readTyped } from './typed_reading';

const air: TaskReading = { what: 'supply air', unit: 'bar' };
const within = (unit: string): TaskReading => ({ what: 'reading', unit });

function refusal(reading: TaskReading, typed: string): string {
  const read = readTyped(reading, typed);
  return 'wrong' in read ? read.wrong : `taken as ${read.value}`;
}

test.each<[string, number]>([
  ...([
    ['5', 5],
    ['5.2', 5.2],
    ['5,2', 5.2],
    [' 5,2 ', 5.2],
    ['+5.2', 5.2],
  ] as Array<[string, number]>),
  ...([
    ['-0,8', -0.8],
    ['\u22120,8', -0.8],
    ['1 234,5', 1234.5],
    ['1\u202f234.5', 1234.5],
  ] as Array<[string, number]>),
  ...([
    [',5', 0.5],
    ['5,', 5],
    ['0,125', 0.125],
    ['1,2340', 1.234],
    ['1234', 1234],
    ['-0', 0],
  ] as Array<[string, number]>),
])('takes %j', (typed, value) => expect(readTyped(air, typed)).toEqual({ value }));

test('the unit may be typed but no other', () => {
  expect(readTyped(air, '5,2 bar')).toEqual({ value: 5.2 });
  expect(readTyped(air, '5.2Bar')).toEqual({ value: 5.2 });
  expect(readTyped(within('°C'), '21 °C')).toEqual({ value: 21 });
  expect(readTyped(within('%'), '7%')).toEqual({ value: 7 });
  expect(refusal(air, '75 psi')).toBe('supply air: “psi” is not its unit; read it in bar.');
  expect(refusal(within('°C'), '70 °F')).toContain('read it in °C');
  expect(refusal(air, '5 mbar')).toContain('“mbar”');
});

test.each([
  ...['', ' ', 'much', 'NaN', 'nan', 'inf', '-inf', '1e309', '1e3', '1E-3', '0x10', '--5', '5-3', '-', ','],
  ...['5 . 2', 'five bar', '+-3', 'bar'],
])('refuses %j as no number, with an example', (typed) =>
  expect(refusal(air, typed)).toMatch(/^supply air: .*(5\.2 bar|in bar)/),
);

test('what is far too long or far too much is refused', () => {
  expect(refusal(air, '9'.repeat(400))).toContain('too long');
  expect(refusal(air, '9'.repeat(50))).toContain('more than any gauge shows');
});

test('what has two meanings is refused with both', () => {
  expect(refusal(air, '1,234')).toBe('supply air: “1,234” can be read in two ways; write 1234, or 1,2340.');
  expect(refusal(air, '-12.345')).toContain('-12345, or -12.3450');
  expect(refusal(air, '1.234,5')).toContain('one comma or point');
});

test.each([
  ['%', '-3', '0 or more'],
  ['%', '101', '100 or less'],
  ['pH', '91', '14 or less'],
  ['l', '-1', '0 or more'],
  ['h', '-0,1', '0 or more'],
  ['°C', '-300', '\u2212273.15 or more'],
])('in %s %s cannot be: %s', (unit, typed, right) => expect(refusal(within(unit), typed)).toContain(right));

test('a temperature or a dial gauge may be below zero', () => {
  expect(readTyped(within('°C'), '-5')).toEqual({ value: -5 });
  expect(readTyped(within('mm'), '-0,008')).toEqual({ value: -0.008 });
});

test('what is printed reads back with either mark', () => {
  for (let cents = -99_999; cents <= 99_999; cents += 379) {
    const typed = (cents / 100).toFixed(2);
    expect(readTyped(air, typed)).toEqual({ value: cents / 100 });
    expect(readTyped(air, `${typed.replace('.', ',')} bar`)).toEqual({ value: cents / 100 });
  }
});
