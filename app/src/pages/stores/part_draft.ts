// A part of the stores while a person fills in its form: every field as text, what is wrong with it, and what the server
// takes.

import { numberIn, numberTrouble, typed } from '../../parts/reading';
import type { NumberLimits } from '../../parts/reading';
import type { StoredPart, StoredPartEdit } from '../../wire/contract';
import { say } from '../../words/words';
import { unitRead, unitWord } from './unit_words';

export const NUMBERS = [
  'price',
  'pack',
  'minimum',
  'lead_days',
  'shelf_life_days',
  'failures_per_year',
  'wanted',
] as const;
export type NumberName = (typeof NUMBERS)[number];

/** Of the field of each number; a wanted chance is typed in percent. */
export const LIMITS: Readonly<Record<NumberName, NumberLimits>> = {
  price: {},
  pack: { aboveZero: true },
  minimum: { aboveZero: true },
  lead_days: { max: 1000 },
  shelf_life_days: { aboveZero: true, whole: true, max: 20_000 },
  failures_per_year: { max: 10_000 },
  wanted: { max: 99.99 },
};
const WANTED_PERCENT_MIN = 50;

export interface PartDraft extends Record<NumberName, string> {
  title: string;
  /** In the language of the pages. */
  unit: string;
  place: string;
  supplier: string;
  /** What the supplier calls it. */
  reference: string;
  /** One a line. */
  names: string;
  /** Numbers, with commas between. */
  substitutes: string;
  serial: boolean;
  note: string;
}
export type PartTroubles = Partial<Record<keyof PartDraft, string>>;

const orEmpty = (value: number | undefined) => (value === undefined ? '' : typed(value));

/** @param part null: a new one */
export function partDraft(part: StoredPart | null): PartDraft {
  const numbers = Object.fromEntries(NUMBERS.map((name) => [name, orEmpty(part?.[name])])) as Record<
    NumberName,
    string
  >;
  return {
    ...numbers,
    wanted: part?.wanted === undefined ? '' : typed(part.wanted * 100),
    ...{ title: part?.title ?? '', unit: unitWord(part?.unit ?? 'piece'), place: part?.place ?? '' },
    supplier: part?.supplier ?? '',
    reference: part?.references?.find(({ supplier }) => supplier === part.supplier)?.reference ?? '',
    names: (part?.names ?? []).join('\n'),
    substitutes: (part?.substitutes ?? []).join(', '),
    ...{ serial: part?.serial ?? false, note: part?.note ?? '' },
  };
}

function numberWrong(name: NumberName, text: string): string {
  if (text.trim() === '') return '';
  const wrong = numberTrouble(text, LIMITS[name]);
  if (wrong !== '' || name !== 'wanted' || numberIn(text) >= WANTED_PERCENT_MIN) return wrong;
  return say('part.at_least', { min: WANTED_PERCENT_MIN });
}

/** By field; empty when nothing is wrong. */
export function partTroubles(draft: PartDraft): PartTroubles {
  const wrongs: PartTroubles = {};
  for (const name of NUMBERS) wrongs[name] = numberWrong(name, draft[name]);
  if (draft.title.trim() === '') wrongs.title = say('form.required');
  if (draft.unit.trim() === '') wrongs.unit = say('form.required');
  if (draft.reference.trim() !== '' && draft.supplier.trim() === '') wrongs.supplier = say('part.whose_reference');
  return Object.fromEntries(Object.entries(wrongs).filter(([, wrong]) => wrong !== ''));
}

const listed = (text: string, by: RegExp) =>
  text
    .split(by)
    .map((one) => one.trim())
    .filter((one) => one !== '');

/** References of other suppliers stay; the one of the supplier from whom it is ordered is what was typed. */
function referencesOf(draft: PartDraft, part: StoredPart | null): StoredPart['references'] {
  const [supplier, reference] = [draft.supplier.trim(), draft.reference.trim()];
  const others = (part?.references ?? []).filter((one) => one.supplier !== supplier);
  return reference === '' ? others : [...others, { supplier, reference }];
}

/** Only for a draft without troubles. @param part as it is now; null: a new one */
export function partOf(draft: PartDraft, part: StoredPart | null): Omit<StoredPartEdit, 'id' | 'by'> {
  const numbers = NUMBERS.filter((name) => draft[name].trim() !== '').map((name) => {
    const value = numberIn(draft[name]);
    return [name, name === 'wanted' ? value / 100 : value] as const;
  });
  const texts = (['place', 'supplier', 'note'] as const)
    .map((name) => [name, draft[name].trim()] as const)
    .filter(([, text]) => text !== '');
  const [names, substitutes] = [listed(draft.names, /\n/), listed(draft.substitutes, /[,;\n]/)];
  const references = referencesOf(draft, part) ?? [];
  return {
    ...{ title: draft.title.trim(), unit: unitRead(draft.unit) },
    ...Object.fromEntries([...numbers, ...texts]),
    ...(names.length > 0 ? { names } : {}),
    ...(substitutes.length > 0 ? { substitutes } : {}),
    ...(references.length > 0 ? { references } : {}),
    ...(draft.serial ? { serial: true } : {}),
  };
}
