// A finding that is being written outlives its page: a phone that opens its camera may end the tab meanwhile. The device
// keeps the words of one finding for half a day; a photo that was taken but not confirmed must be taken again.

import { emptyDraft } from './finding_draft';
import type { FindingDraft } from './finding_draft';
import { recall, remember } from './remembered';

const SLOT = 'draft';
const KEPT_MS = 12 * 3_600_000;

interface Kept {
  of: string;
  at: number;
  words: Omit<FindingDraft, 'photos'>;
}

function kept(of: string): Kept | null {
  try {
    const read = JSON.parse(recall(SLOT)) as Kept;
    return read.of === of && Date.now() - read.at < KEPT_MS ? read : null;
  } catch {
    return null;
  }
}

/** Whether words are kept of the finding that is written there. */
export const isKept = (of: string): boolean => kept(of) !== null;

/** Made while a component is set up. `of` says where it is written; `suggested` is what it begins with. */
export class KeptDraft {
  value = $state(emptyDraft());

  constructor(of: string, suggested = '') {
    this.value = { ...emptyDraft(), what: suggested, ...kept(of)?.words };
    $effect(() => {
      const { what, severity, owner } = this.value;
      const words = { what, severity, owner };
      const isTouched = ![suggested, ''].includes(what) || severity !== '' || owner !== '';
      if (isTouched) remember(SLOT, JSON.stringify({ of, at: Date.now(), words }));
    });
  }

  /** The finding is an entry now, or given up. */
  end(): void {
    this.value = emptyDraft();
    remember(SLOT, '');
  }
}
