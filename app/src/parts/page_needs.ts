// Which operation a page lives from: who may not do that may not open the page, and sees no way to it.

import type { Page } from '../route.svelte';
import type { operations } from '../wire/contract';

export const PAGE_NEEDS: Readonly<Partial<Record<Page['name'], keyof typeof operations>>> = {
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
