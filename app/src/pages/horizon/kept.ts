// What the address keeps of the Horizon, read with what stands for what is missing or makes no sense.

import type { Skill } from '../../wire/contract';
import { WEEKS } from './axis';
import type { Weeks } from './axis';
import type { Choice } from './choose';

export const SKILLS: readonly Skill[] = ['operator', 'technician', 'outside service'];
export const FORMS = ['drawing', 'list'] as const;
export type Form = (typeof FORMS)[number];

const WEEKS_USUAL: Weeks = 13;

export interface Kept {
  choice: Choice;
  weeks: Weeks;
  form: Form;
}

/** @param usual the form where none is chosen: a list on a narrow screen */
export function keptIn(query: URLSearchParams, usual: Form): Kept {
  const by = query.get('by') ?? '';
  return {
    choice: {
      cell: query.get('cell') ?? '',
      search: query.get('find') ?? '',
      skill: SKILLS.find((skill) => skill === query.get('skill')) ?? '',
      by: Number.isNaN(Date.parse(`${by}T00:00:00Z`)) ? '' : by,
    },
    weeks: WEEKS.find((weeks) => String(weeks) === query.get('weeks')) ?? WEEKS_USUAL,
    form: FORMS.find((form) => form === query.get('as')) ?? usual,
  };
}
