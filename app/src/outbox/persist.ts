// What the device may do for the outbox where the browser lets it: keep its storage when space runs short, and show the
// number unsent on the app's icon. Both are missing on plain HTTP, and in some browsers.

import { recall, remember } from '../parts/remembered';

const ASKED = 'asked_to_persist';

/** Asks once on this device, when something was entered for the first time; some browsers ask the person. */
export async function askToPersist(): Promise<void> {
  const storage = navigator.storage as Navigator['storage'] | undefined;
  if (recall(ASKED) !== '' || !storage?.persist) return;
  remember(ASKED, 'yes');
  await storage.persist().catch(() => false);
}

export function showOnIcon(unsent: number): void {
  const badge = navigator as Partial<Pick<Navigator, 'setAppBadge' | 'clearAppBadge'>>;
  const shown = unsent > 0 ? badge.setAppBadge?.(unsent) : badge.clearAppBadge?.();
  shown?.catch(() => undefined);
}
