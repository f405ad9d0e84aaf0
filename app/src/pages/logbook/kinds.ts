// The kinds of entries in the order in which a person looks for them.

import type { EntryKind } from '../../wire/contract';

export const ENTRY_KINDS: readonly EntryKind[] = [
  'task done',
  'round begun',
  'check answered',
  'others as they should be',
  'finding made',
  'finding changed',
  'finding settled',
  'finding reopened',
  'stop agreed',
  'stop changed',
  'stop withdrawn',
  'stop closed',
  'hours read',
  'hours settled',
  'correction',
  'undone',
  'task added',
  'task changed',
  'task retired',
  'interval moved',
  'points moved',
  'walk changed',
  'use announced',
  'use withdrawn',
];
