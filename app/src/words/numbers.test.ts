import { describe, expect, test } from 'vitest';
import { bothMeanings, printAmount, printMeasured, printNumber, printPlain, readNumber } from './numbers';

describe('printing', () => {
  test('groups thousands by a narrow space and never by a mark', () => {
    expect(printNumber(1234567.25, 1)).toBe('1\u202f234\u202f567.3');
    expect(printNumber(1234.5, 1, ',')).toBe('1\u202f234,5');
    expect(printNumber(999, 0)).toBe('999');
  });
  test('shows a minus sign only where a digit below zero is left', () => {
    expect(printNumber(-12.34, 1)).toBe('\u221212.3');
    expect(printNumber(-0.04, 1)).toBe('0.0');
  });
  test('gives each unit its digits', () => {
    expect(printAmount(4012.345, 'h')).toBe('4\u202f012.3\u00a0h');
    expect(printAmount(15000.7, 'rev')).toBe('15\u202f001\u00a0rev');
    expect(printAmount(12, '1')).toBe('12');
  });
  test('prints an interval as it was entered', () => {
    expect([400, 0.4, 12.25, 0.125].map((value) => printPlain(value))).toEqual(['400', '0.4', '12.25', '0.125']);
  });
});

describe('reading', () => {
  test.each([
    ['12,5', 12.5],
    ['12.5', 12.5],
    [' 4 012,3 ', 4012.3],
    ['4\u202f012.3', 4012.3],
    ['0,125', 0.125],
    ['1234', 1234],
    ['-3', -3],
    ['\u22123', -3],
    ['1234.567', 1234.567],
  ])('takes %j as %d', (text, value) => expect(readNumber(text)).toEqual({ value }));

  test.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['many', 'not a number'],
    ['12 h', 'not a number'],
    ['1e309', 'not a number'],
    ['NaN', 'not a number'],
    [',', 'not a number'],
    ['1.234.567', 'too many marks'],
    ['1,234.5', 'too many marks'],
    ['1,234', 'two meanings'],
    ['12.345', 'two meanings'],
  ])('refuses %j: %s', (text, unreadable) => expect(readNumber(text)).toEqual({ unreadable }));

  test('a refusal of two meanings offers two texts that are taken', () => {
    const { thousands, decimal } = bothMeanings('12.345');
    expect(readNumber(thousands)).toEqual({ value: 12345 });
    expect(readNumber(decimal)).toEqual({ value: 12.345 });
  });

  test('what was printed is read back', () => {
    for (const value of [0, 7.5, 1234.5, 987654.3]) expect(readNumber(printNumber(value, 1))).toEqual({ value });
  });
});

test.each([
  [5.2, '5.2'],
  [0.0005, '0.0005'],
  [-273.15, '\u2212273.15'],
  [1234, '1\u202f234'],
  [100, '100'],
])('a measured %s keeps its digits', (value, text) => expect(printMeasured(value)).toBe(text));
