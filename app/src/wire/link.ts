// The open line to the server: server-sent events, opened again whenever they end, with a growing pause between tries.
// Whoever opens a stream has missed what went before, so `opened` means: load afresh. A line can also die without a
// word (Wi-Fi gone); so after a while of silence the server is asked whether it is there.

export type LinkState = 'opening' | 'open' | 'lost';

export interface LinkListener {
  /** The line is open (again): load everything afresh. */
  opened(): void;
  /** An event arrived. */
  heard(event: string, data: unknown): void;
  state(state: LinkState): void;
}

/** What the line stands on; tests give their own. */
export interface LinkGround {
  open(): EventSource;
  isAlive(): Promise<boolean>;
  setTimeout(act: () => void, ms: number): number;
  clearTimeout(timer: number): void;
}

const EVENTS = ['machine', 'tasks', 'stores', 'plants', 'resync'];
const PAUSES_MS = [500, 1_000, 2_000, 4_000, 8_000];
const SILENCE_MS = 15_000;

export function pauseBefore(attempt: number): number {
  return PAUSES_MS[Math.min(attempt, PAUSES_MS.length - 1)] ?? 0;
}

export class Link {
  private source: EventSource | null = null;
  private retryTimer = 0;
  private silenceTimer = 0;
  private attempt = 0;

  constructor(
    private readonly listener: LinkListener,
    private readonly ground: LinkGround,
  ) {}

  open(): void {
    this.close();
    this.listener.state(this.attempt === 0 ? 'opening' : 'lost');
    const source = this.ground.open();
    this.source = source;
    source.onopen = () => this.whenOpened();
    source.onerror = () => this.whenLost();
    for (const name of EVENTS) source.addEventListener(name, (event) => this.whenHeard(name, event as MessageEvent));
  }

  /** Tries now rather than when the pause is over: the device woke up, or says that it is online. */
  hurry(): void {
    if (this.source === null) this.open();
    else void this.ask();
  }

  close(): void {
    this.ground.clearTimeout(this.retryTimer);
    this.ground.clearTimeout(this.silenceTimer);
    this.source?.close();
    this.source = null;
  }

  private whenOpened(): void {
    this.attempt = 0;
    this.listener.state('open');
    this.listener.opened();
    this.awaitSound();
  }

  private whenLost(): void {
    this.close();
    this.listener.state('lost');
    this.retryTimer = this.ground.setTimeout(() => this.open(), pauseBefore(this.attempt));
    this.attempt += 1;
  }

  private whenHeard(name: string, event: MessageEvent): void {
    this.awaitSound();
    if (name === 'resync') this.listener.opened();
    else this.listener.heard(name, JSON.parse(String(event.data)));
  }

  private awaitSound(): void {
    this.ground.clearTimeout(this.silenceTimer);
    this.silenceTimer = this.ground.setTimeout(() => void this.ask(), SILENCE_MS);
  }

  private async ask(): Promise<void> {
    const asked = this.source;
    const alive = await this.ground.isAlive();
    if (this.source !== asked) return;
    if (alive) this.awaitSound();
    else this.whenLost();
  }
}
