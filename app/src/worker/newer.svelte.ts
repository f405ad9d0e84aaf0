// Registers the service worker and knows when a newer build of the app is ready. It is never put on by itself: a person
// asks for it, and only that person's page is loaded anew.

const LOOK_MS = 30 * 60_000;

class Newer {
  /** A newer build waits for a person's word. */
  isReady = $state(false);
  private registration: ServiceWorkerRegistration | null = null;
  private isAsked = false;

  start(): void {
    const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
    if (workers === undefined || import.meta.env.DEV) return;
    const hadOne = workers.controller !== null;
    workers.addEventListener('controllerchange', () => {
      if (this.isAsked) window.location.reload();
      else if (hadOne) this.isReady = true;
    });
    void this.register(workers);
  }

  /** Asks the server whether there is a newer build. */
  async look(): Promise<void> {
    await this.registration?.update().catch(() => undefined);
  }

  /** The person said so: this page comes back in the newer build. */
  takeOver(): void {
    const waiting = this.registration?.waiting;
    this.isAsked = true;
    if (waiting) waiting.postMessage('take over');
    else window.location.reload();
  }

  private async register(workers: ServiceWorkerContainer): Promise<void> {
    try {
      this.registration = await workers.register('/worker.js');
    } catch {
      return; // Without it the app works as long as the server is there.
    }
    this.follow(this.registration, workers);
    window.setInterval(() => void this.look(), LOOK_MS);
  }

  private follow(registration: ServiceWorkerRegistration, workers: ServiceWorkerContainer): void {
    if (registration.waiting && workers.controller) this.isReady = true;
    registration.addEventListener('updatefound', () => {
      const fresh = registration.installing;
      fresh?.addEventListener('statechange', () => {
        if (fresh.state === 'installed' && workers.controller) this.isReady = true;
      });
    });
  }
}

export const newer = new Newer();
