import { expect, test, vi } from 'vitest';
import type { FloorMachine } from '../wire/contract';
import { keyInAddress, machineMeant, pageInAddress, partMeant } from './label_code';

// The addresses come with the route, which looks at the window when it is loaded.
vi.hoisted(() => vi.stubGlobal('window', { location: { href: 'http://shop/' } }));

const machine = (key: string, name: string) => ({ key, name }) as FloorMachine;
const MACHINES = [machine('m01', 'Alder'), machine('m02', 'Bögen'), machine('m03', 'Twin'), machine('m04', 'Twin')];

test.each([
  ['http://shop.example:8470/machine/m01', 'm01'],
  ['https://10.0.0.5/machine/m01/', 'm01'],
  ['  https://shop.local/machine/press%202?task=a ', 'press 2'],
  ['/machine/m07', 'm07'],
])('%s means %s', (text, key) => expect(keyInAddress(text)).toBe(key));

test.each([
  'm01',
  'http://shop.example/',
  'http://shop.example/machine/',
  'http://shop.example/machine/m01/new-task',
  'http://shop.example/labels/machine/m01x/y',
  'see http://shop.example/machine/m01 there',
  'http://shop.example/machine/%E0%A4%A',
  '',
])('%s is no address of a machine', (text) => expect(keyInAddress(text)).toBeNull());

test('a machine is meant by its address, its key in any letters, or its name without its dots', () => {
  expect(machineMeant('http://old.example/machine/m02', MACHINES)?.key).toBe('m02');
  expect(machineMeant(' M01 ', MACHINES)?.key).toBe('m01');
  expect(machineMeant('bogen', MACHINES)?.key).toBe('m02');
});
test('what means no machine, or two, means none', () => {
  expect(machineMeant('http://shop.example/machine/m99', MACHINES)).toBeUndefined();
  expect(machineMeant('twin', MACHINES)).toBeUndefined();
  expect(machineMeant('', MACHINES)).toBeUndefined();
});

test('a label leads to its machine, or to the count of its part', () => {
  expect(pageInAddress('http://shop.example:8470/machine/m01')).toBe('/machine/m01');
  expect(pageInAddress('http://shop.example:8470/stores/F-104')).toBe('/stores/F-104?count=yes');
  expect(pageInAddress('https://10.0.0.5/stores/O%2F7%20a')).toBe('/stores/O%2F7%20a?count=yes');
  expect(pageInAddress('http://shop.example/stores')).toBeNull();
});
test('a part is meant by its address, or by its number in any letters', () => {
  expect(partMeant('http://old.example/stores/F-999', ['F-104'])).toBe('F-999');
  expect(partMeant(' f-104', ['F-104'])).toBe('F-104');
  expect(partMeant('F-10', ['F-104'])).toBeUndefined();
  expect(partMeant('', ['F-104'])).toBeUndefined();
});
