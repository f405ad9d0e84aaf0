// A closing that is being filled in outlives its page, as a finding does (parts/kept_draft.svelte.ts): the phone may end
// the tab in a pocket. One at a time, for a day.

import { recall, remember } from '../../parts/remembered';
import { fitted } from './closing';
import type { CloseDraft } from './closing';

const SLOT = 'closing';
const KEPT_MS = 24 * 3_600_000;

function kept(stop: string): CloseDraft | null {
  try {
    const read = JSON.parse(recall(SLOT)) as {
      stop: string;
      at: number;
      draft: Omit<CloseDraft, 'used'> & Partial<CloseDraft>;
    };
    return read.stop === stop && Date.now() - read.at < KEPT_MS ? { ...read.draft, used: read.draft.used ?? [] } : null;
  } catch {
    return null;
  }
}

/** Whether something is kept of this stop's closing. */
export const isClosingKept = (stop: string): boolean => kept(stop) !== null;

/** Made while a component is set up. */
export class KeptClosing {
  value = $state() as CloseDraft;

  constructor(stop: string, fresh: CloseDraft) {
    const before = kept(stop);
    const begun = JSON.stringify(fresh);
    this.value = before === null ? fresh : fitted(before, fresh);
    $effect(() => {
      const draft = JSON.stringify(this.value);
      const isTouched = before !== null || draft !== begun;
      if (isTouched) remember(SLOT, `{"stop":${JSON.stringify(stop)},"at":${Date.now()},"draft":${draft}}`);
    });
  }

  /** It is an entry now, or given up. */
  end(): void {
    remember(SLOT, '');
  }
}
