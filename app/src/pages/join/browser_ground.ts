// What this browser gives to the checks. Where something is missing altogether (an open line, an old browser) the calls
// fail, and a failure is the answer.

import type { CheckGround, Verdict } from './checks';

const PROBE = '/join_probe.js';
const PROBE_SCOPE = '/join-probe/';

export const browserGround: CheckGround = {
  isSecure: window.isSecureContext,
  async takeWorker() {
    const taken = await navigator.serviceWorker.register(PROBE, { scope: PROBE_SCOPE });
    await taken.unregister();
  },
  async hasWorker() {
    const ours = await navigator.serviceWorker.getRegistration('/');
    return ours?.active != null;
  },
  isKept: () => navigator.storage.persisted(),
};

/** Asks the browser to keep what is stored here; it decides. */
export async function askToKeep(): Promise<Verdict> {
  try {
    return (await navigator.storage.persist()) ? 'yes' : 'no';
  } catch {
    return 'no';
  }
}

/** Opens the camera, which asks the person, and closes it again. */
export async function tryCamera(): Promise<Verdict> {
  try {
    const stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
    for (const track of stream.getTracks()) track.stop();
    return 'yes';
  } catch {
    return 'no';
  }
}
