import type { Key } from '../../words/catalogue';
import type { TaskDraft } from './draft';

/** What the form calls each field. */
export const FIELD_WORDS: Record<keyof TaskDraft, Key> = {
  title: 'form.title',
  assembly: 'form.assembly',
  point: 'form.point',
  work: 'form.work',
  skill: 'form.skill',
  energy: 'form.energy',
  minutes: 'form.minutes',
  triggers: 'form.when',
  steps: 'form.steps',
  reason: 'form.reason',
  caution: 'form.caution',
  parts: 'form.parts',
  readings: 'form.readings',
  quantityUnit: 'form.quantity_unit',
  after: 'form.after',
  demandedBy: 'form.demanded_by',
  costs: 'form.costs',
};
