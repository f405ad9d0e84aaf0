// A sheet of labels while a person writes its numbers: every field as text; checked by the rules of the server's
// label_sheet.cpp, so that what does not fit is said beside its field. Lengths in mm.

import { numberIn, numberTrouble } from '../../parts/reading';
import { plain, say } from '../../words/words';

export const LENGTHS = [
  'page_width_mm',
  'page_height_mm',
  'margin_left_mm',
  'margin_top_mm',
  'label_width_mm',
  'label_height_mm',
  'pitch_x_mm',
  'pitch_y_mm',
] as const;
export const COUNTS = ['columns', 'rows'] as const;
export const ROLL = ['roll_width_mm', 'roll_height_mm'] as const;
export type SheetField = (typeof LENGTHS)[number] | (typeof COUNTS)[number] | (typeof ROLL)[number] | 'first_label';

export type Layout = 'sheet' | 'single';
export type SheetDraft = { layout: Layout } & Record<SheetField, string>;
export type SheetTroubles = Partial<Record<SheetField, string>>;

const SIDE_MM_MIN = 20;
const SIDE_MM_MAX = 1200;
const COUNT_MAX = 50;
/** What rounding may add to a sum of lengths that fits to the last tenth. */
const ROUNDING_MM = 1e-6;

/** A4 (ISO 216) with 3 columns and 8 rows, in the middle of the page; and a label of a roll. */
export const FIRST_SHEET: SheetDraft = {
  layout: 'sheet',
  page_width_mm: '210',
  page_height_mm: '297',
  margin_left_mm: '7',
  margin_top_mm: '12.5',
  label_width_mm: '64',
  label_height_mm: '34',
  pitch_x_mm: '66',
  pitch_y_mm: '34',
  columns: '3',
  rows: '8',
  first_label: '1',
  roll_width_mm: '60',
  roll_height_mm: '40',
};

/** A draft as it was remembered; what is not understood becomes the first sheet's. */
export function draftFrom(text: string): SheetDraft {
  try {
    const kept = JSON.parse(text) as Record<string, unknown>;
    const fields = Object.entries(FIRST_SHEET).map(([name, first]) => {
      const value = kept[name];
      return [name, typeof value === 'string' ? value : first];
    });
    const draft = Object.fromEntries(fields) as SheetDraft;
    return draft.layout === 'single' ? draft : { ...draft, layout: 'sheet' };
  } catch {
    return { ...FIRST_SHEET };
  }
}

/** One direction of the sheet, so that both are checked by the same words. */
interface Direction {
  page: SheetField;
  margin: SheetField;
  label: SheetField;
  pitch: SheetField;
  count: SheetField;
}
const ACROSS: Direction = {
  page: 'page_width_mm',
  margin: 'margin_left_mm',
  label: 'label_width_mm',
  pitch: 'pitch_x_mm',
  count: 'columns',
};
const DOWN: Direction = {
  page: 'page_height_mm',
  margin: 'margin_top_mm',
  label: 'label_height_mm',
  pitch: 'pitch_y_mm',
  count: 'rows',
};

function sideTrouble(text: string): string {
  const trouble = numberTrouble(text, { max: SIDE_MM_MAX });
  if (trouble !== '' || numberIn(text) >= SIDE_MM_MIN) return trouble;
  return say('labels.at_least', { min: SIDE_MM_MIN });
}

const countTrouble = (text: string, max: number) => numberTrouble(text, { aboveZero: true, whole: true, max });

function rangeTroubles(draft: SheetDraft, way: Direction): SheetTroubles {
  return {
    [way.page]: sideTrouble(draft[way.page]),
    [way.label]: sideTrouble(draft[way.label]),
    [way.margin]: numberTrouble(draft[way.margin], { max: SIDE_MM_MAX }),
    [way.pitch]: numberTrouble(draft[way.pitch], { max: SIDE_MM_MAX }),
    [way.count]: countTrouble(draft[way.count], COUNT_MAX),
  };
}

/** Do the labels of one direction overlap, or reach over the page's edge? */
function fitTroubles(draft: SheetDraft, way: Direction): SheetTroubles {
  const of = (part: keyof Direction) => numberIn(draft[way[part]]);
  const [page, margin, label, pitch, count] = [of('page'), of('margin'), of('label'), of('pitch'), of('count')];
  if (count > 1 && pitch < label - ROUNDING_MM) return { [way.pitch]: say('labels.overlap', { label }) };
  const needed = margin + (count - 1) * pitch + label;
  return needed > page + ROUNDING_MM ? { [way.count]: say('labels.too_many', { needed, page }) } : {};
}

const onlyReal = (troubles: SheetTroubles): SheetTroubles =>
  Object.fromEntries(Object.entries(troubles).filter(([, trouble]) => trouble !== ''));

function directionTroubles(draft: SheetDraft, way: Direction): SheetTroubles {
  const ranges = onlyReal(rangeTroubles(draft, way));
  return Object.keys(ranges).length > 0 ? ranges : fitTroubles(draft, way);
}

/** What is wrong, by field; empty when the sheet can be printed. */
export function sheetTroubles(draft: SheetDraft): SheetTroubles {
  if (draft.layout === 'single') {
    const troubles = ROLL.map((field) => [field, sideTrouble(draft[field])]);
    return onlyReal(Object.fromEntries(troubles) as SheetTroubles);
  }
  const troubles = { ...directionTroubles(draft, ACROSS), ...directionTroubles(draft, DOWN) };
  if (troubles.columns !== undefined || troubles.rows !== undefined) return troubles;
  const perPage = numberIn(draft.columns) * numberIn(draft.rows);
  return onlyReal({ ...troubles, first_label: countTrouble(draft.first_label, perPage) });
}

/** The numbers of a draft without troubles. */
export function numbersOf(draft: SheetDraft): Record<SheetField, number> {
  const fields = [...LENGTHS, ...COUNTS, ...ROLL, 'first_label'] as const;
  return Object.fromEntries(
    fields.map((field) => [field, numberTrouble(draft[field]) === '' ? numberIn(draft[field]) : 0]),
  ) as Record<SheetField, number>;
}

/** The numbers of a draft without troubles as GET /api/labels.pdf takes them. */
export function sheetQuery(draft: SheetDraft): Record<string, string> {
  const numbers = numbersOf(draft);
  if (draft.layout === 'single')
    return {
      layout: 'single',
      label_width_mm: String(numbers.roll_width_mm),
      label_height_mm: String(numbers.roll_height_mm),
    };
  const fields = [...LENGTHS, ...COUNTS, 'first_label'] as const;
  return { layout: 'sheet', ...Object.fromEntries(fields.map((field) => [field, String(numbers[field])])) };
}

export interface LabelPlace {
  /** From 1, row by row. */
  nth: number;
  x: number;
  y: number;
}

/** Every label of one sheet, in mm from the page's left upper corner. */
export function placesOn(draft: SheetDraft): LabelPlace[] {
  const sheet = numbersOf(draft);
  return Array.from({ length: sheet.columns * sheet.rows }, (_, index) => ({
    nth: index + 1,
    x: sheet.margin_left_mm + (index % sheet.columns) * sheet.pitch_x_mm,
    y: sheet.margin_top_mm + Math.floor(index / sheet.columns) * sheet.pitch_y_mm,
  }));
}

/** How many pages so many labels take. */
export function pagesFor(draft: SheetDraft, labels: number): number {
  if (draft.layout === 'single') return labels;
  const { columns, rows, first_label } = numbersOf(draft);
  return labels === 0 ? 0 : Math.ceil((first_label - 1 + labels) / (columns * rows));
}

function urlOf(text: string): URL | null {
  try {
    return new URL(text.trim());
  } catch {
    return null;
  }
}

/** What is wrong with the server's address as it would stand on the labels, in words; '' when nothing is. */
export function baseTrouble(text: string): string {
  if (text.trim() === '') return say('labels.base_empty');
  const url = urlOf(text);
  if (url === null || !/^https?:$/.test(url.protocol) || url.host === '') return say('labels.base_wrong');
  return url.search === '' && url.hash === '' && url.username === '' ? '' : say('labels.base_more');
}

/** Does the address mean the computer itself, which no phone can reach? */
export function isOwnComputer(base: string): boolean {
  const host = urlOf(base)?.hostname ?? '';
  return host === 'localhost' || host === '[::1]' || host.startsWith('127.');
}

export const millimetres = (value: number) => `${plain(value)}\u00a0mm`;
