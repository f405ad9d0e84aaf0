// Which operation a page lives from: who may not do that may not open the page, and sees no way to it.

import type { Page } from '../route.svelte';
import type { operations } from '../wire/contract';

type Needs = Readonly<Partial<Record<Page['name'], keyof typeof operations>>>;

const PAGE_NEEDS: Needs = {
  access: 'accounts',
  'change plan': 'movePoints',
  'change task': 'changeTask',
  finding: 'finding',
  findings: 'findings',
  floor: 'floor',
  horizon: 'horizon',
  kits: 'kits',
  labels: 'labels',
  lives: 'parts',
  logbook: 'logbook',
  machine: 'machine',
  month: 'month',
  'new finding': 'makeFinding',
  'new task': 'addTask',
  part: 'part',
  'parts sheet': 'lookAtSheet',
  reading: 'reading',
  round: 'rounds',
  rounds: 'rounds',
  stop: 'stop',
  'stored part': 'storedPart',
  stores: 'stores',
  stops: 'stops',
  'task date': 'forecast',
  today: 'today',
  'use changes': 'useChanges',
};
/** The same of pages that are others on a group's site. */
const GROUP_NEEDS: Needs = {
  floor: 'groupFloor',
  horizon: 'groupFloor',
  lives: 'groupParts',
  part: 'groupPart',
  visits: 'groupVisits',
};

export const needOf = (name: Page['name'], isGroup: boolean): keyof typeof operations | undefined =>
  (isGroup ? GROUP_NEEDS[name] : undefined) ?? PAGE_NEEDS[name];
