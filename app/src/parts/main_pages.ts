// The main pages of a plant's site, in the order of a person's day, and those of a group's. A page more is a line more.

import {
  findingsAddress,
  FLOOR_ADDRESS,
  HORIZON_ADDRESS,
  labelsAddress,
  LIVES_ADDRESS,
  logbookAddress,
  ROUNDS_ADDRESS,
  SCAN_ADDRESS,
  storesAddress,
  TODAY_ADDRESS,
  VISITS_ADDRESS,
} from '../route.svelte';
import type { Page } from '../route.svelte';
import type { Key } from '../words/catalogue';

export interface MainPage {
  title: Key;
  address: string;
  /** The pages that belong to it, itself first. */
  names: ReadonlyArray<Page['name']>;
}

const MAIN_PAGES: ReadonlyArray<MainPage> = [
  { title: 'today.title', address: TODAY_ADDRESS, names: ['today'] },
  { title: 'floor.title', address: FLOOR_ADDRESS, names: ['floor', 'machine'] },
  { title: 'horizon.title', address: HORIZON_ADDRESS, names: ['horizon', 'use changes', 'task date', 'stops', 'stop'] },
  { title: 'rounds.title', address: ROUNDS_ADDRESS, names: ['rounds', 'round'] },
  { title: 'findings.title', address: findingsAddress(), names: ['findings', 'finding', 'new finding'] },
  { title: 'stores.title', address: storesAddress(), names: ['stores', 'stored part', 'kits', 'parts sheet'] },
  { title: 'logbook.title', address: logbookAddress(), names: ['logbook', 'month'] },
  { title: 'lives.title', address: LIVES_ADDRESS, names: ['lives', 'part'] },
  { title: 'labels.title', address: labelsAddress(), names: ['labels'] },
  { title: 'scan.short', address: SCAN_ADDRESS, names: ['scan'] },
];

const GROUP_PAGES: ReadonlyArray<MainPage> = [
  { title: 'plants.title', address: FLOOR_ADDRESS, names: ['floor'] },
  { title: 'horizon.title', address: HORIZON_ADDRESS, names: ['horizon'] },
  { title: 'lives.title', address: LIVES_ADDRESS, names: ['lives', 'part'] },
  { title: 'visits.title', address: VISITS_ADDRESS, names: ['visits'] },
];
/** What a group's site has besides: it is about people, not about machines. */
const GROUP_OTHERS: ReadonlyArray<Page['name']> = ['access', 'enter', 'join', 'me', 'unsent', 'not there'];

export const mainPages = (isGroup: boolean): ReadonlyArray<MainPage> => (isGroup ? GROUP_PAGES : MAIN_PAGES);

/** The main page that a page belongs to, if it does. */
export const mainPageOf = (name: Page['name'], isGroup: boolean): MainPage | undefined =>
  mainPages(isGroup).find((page) => page.names.includes(name));

/** Has a group's site that page? */
export const isOfGroup = (name: Page['name']): boolean =>
  GROUP_OTHERS.includes(name) || mainPageOf(name, true) !== undefined;
