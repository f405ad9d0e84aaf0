import { expect, test } from 'vitest';
import {
  baseTrouble,
  draftFrom,
  FIRST_SHEET,
  isOwnComputer,
  pagesFor,
  placesOn,
  sheetQuery,
  sheetTroubles,
} from './sheet';
import type { SheetDraft } from './sheet';

const sheet = (more: Partial<SheetDraft> = {}): SheetDraft => ({ ...FIRST_SHEET, ...more });
const wrongs = (more: Partial<SheetDraft>) => Object.keys(sheetTroubles(sheet(more)));

test('the first sheet fits', () => expect(sheetTroubles(sheet())).toEqual({}));

test('a length takes comma and point', () => {
  expect(sheetTroubles(sheet({ margin_top_mm: '12,5' }))).toEqual({});
  expect(sheetQuery(sheet({ margin_top_mm: '12,5' }))['margin_top_mm']).toBe('12.5');
});

test('what does not fit names its field', () => {
  expect(wrongs({ page_width_mm: '200' })).toEqual(['columns']);
  expect(wrongs({ rows: '9' })).toEqual(['rows']);
  expect(wrongs({ pitch_x_mm: '60' })).toEqual(['pitch_x_mm']);
  expect(wrongs({ label_width_mm: '10' })).toEqual(['label_width_mm']);
  expect(wrongs({ columns: '0' })).toEqual(['columns']);
  expect(wrongs({ columns: '2.5' })).toEqual(['columns']);
  expect(wrongs({ first_label: '25' })).toEqual(['first_label']);
  expect(wrongs({ margin_left_mm: 'wide' })).toEqual(['margin_left_mm']);
  expect(wrongs({ pitch_y_mm: '-1' })).toEqual(['pitch_y_mm']);
});

test('one column needs no pitch', () => expect(wrongs({ columns: '1', pitch_x_mm: '0' })).toEqual([]));

test('a roll looks only at its own two numbers', () => {
  expect(wrongs({ layout: 'single', rows: 'many' })).toEqual([]);
  expect(wrongs({ layout: 'single', roll_height_mm: '4' })).toEqual(['roll_height_mm']);
  expect(sheetQuery(sheet({ layout: 'single', roll_width_mm: '57,5' }))).toEqual({
    ...{ layout: 'single', label_width_mm: '57.5', label_height_mm: '40' },
  });
});

test('labels stand at margin plus pitch', () => {
  const places = placesOn(sheet());
  expect(places).toHaveLength(24);
  expect(places[4]).toEqual({ nth: 5, x: 7 + 66, y: 12.5 + 34 });
});

test('used labels take room on the first sheet', () => {
  expect(pagesFor(sheet(), 24)).toBe(1);
  expect(pagesFor(sheet({ first_label: '2' }), 24)).toBe(2);
  expect(pagesFor(sheet({ layout: 'single' }), 5)).toBe(5);
  expect(pagesFor(sheet(), 0)).toBe(0);
});

test('what was remembered comes back, and nonsense becomes the first sheet', () => {
  expect(draftFrom(JSON.stringify(sheet({ rows: '7' }))).rows).toBe('7');
  expect(draftFrom('{"rows": 7, "layout": "circle"}')).toEqual(FIRST_SHEET);
  expect(draftFrom('')).toEqual(FIRST_SHEET);
});

test('the address is a server’s, and nothing more', () => {
  expect(['http://shop.example:8470', 'https://10.0.0.5/', ' http://shop.local '].map(baseTrouble)).toEqual([
    '',
    '',
    '',
  ]);
  for (const wrong of [
    '',
    'shop.example',
    'ftp://shop.example',
    'http://',
    'http://a.example/?x=1',
    'http://a.example/#x',
  ])
    expect(baseTrouble(wrong), wrong).not.toBe('');
});

test('an address that only this computer reaches is known', () => {
  expect(['http://127.0.0.1:8470', 'http://localhost:1', 'http://[::1]:2'].every(isOwnComputer)).toBe(true);
  expect(['http://shop.example', 'http://10.127.0.1'].some(isOwnComputer)).toBe(false);
});
