// A finding while it is being written: what is not so, how severe, whose it is, photos.

import type { TakenPhoto } from '../outbox/entered';
import type { Severity } from '../wire/contract';
import { say } from '../words/words';

export interface FindingDraft {
  what: string;
  severity: Severity | '';
  /** '' : nobody yet. */
  owner: string;
  photos: TakenPhoto[];
}

const WHAT_MAX = 2000;

export const emptyDraft = (): FindingDraft => ({ what: '', severity: '', owner: '', photos: [] });

export interface FindingWrongs {
  what?: string;
  severity?: string;
}

/** What must be mended before it can be kept; empty when nothing. */
export function findingWrongs(draft: FindingDraft): FindingWrongs {
  const what = draft.what.trim();
  return {
    ...(what === '' ? { what: say('form.required') } : {}),
    ...(what.length > WHAT_MAX ? { what: say('form.too_long', { max: WHAT_MAX, count: what.length }) } : {}),
    ...(draft.severity === '' ? { severity: say('finding.choose_severity') } : {}),
  };
}
