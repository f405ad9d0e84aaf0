// Whether this device can do what a round needs, each point proved by doing it rather than by asking what the browser
// is called. The ground is what the browser gives; tests give their own.

import type { Join } from '../../wire/contract';

export const CHECKS = ['joined', 'secure', 'trusted', 'worker', 'kept', 'camera'] as const;
export type CheckName = (typeof CHECKS)[number];
/** `open`: nobody has tried it yet; it needs a person's word. */
export type Verdict = 'yes' | 'no' | 'asking' | 'open';
export type Verdicts = Readonly<Record<CheckName, Verdict>>;

export interface CheckGround {
  isSecure: boolean;
  /** Takes a worker from this line and puts it away again; refused where the certificate is not trusted. */
  takeWorker(): Promise<void>;
  /** Whether a worker of ours keeps the pages. */
  hasWorker(): Promise<boolean>;
  isKept(): Promise<boolean>;
}

const yesIf = (holds: boolean): Verdict => (holds ? 'yes' : 'no');

async function tried(act: () => Promise<boolean>): Promise<Verdict> {
  try {
    return yesIf(await act());
  } catch {
    return 'no';
  }
}

export const unlooked: Verdicts = {
  joined: 'asking',
  secure: 'asking',
  trusted: 'asking',
  worker: 'asking',
  kept: 'asking',
  camera: 'open',
};

/** All that needs no person's word; `camera` stays as it is, but for lines on which no browser gives it. */
export async function lookAtAll(join: Join, ground: CheckGround, camera: Verdict): Promise<Verdicts> {
  const isSecure = join.encrypted && ground.isSecure;
  const taken = async () => {
    await ground.takeWorker();
    return true;
  };
  const ifSecure = async (act: () => Promise<boolean>): Promise<Verdict> => (isSecure ? tried(act) : 'no');
  const [trusted, worker, kept] = await Promise.all([
    ifSecure(taken),
    ifSecure(ground.hasWorker),
    ifSecure(ground.isKept),
  ]);
  return {
    joined: yesIf(join.device !== null),
    secure: yesIf(isSecure),
    trusted,
    worker,
    kept,
    camera: isSecure ? camera : 'no',
  };
}

/** How many do not work, those that nobody has tried left out. */
export const failing = (verdicts: Verdicts) => CHECKS.filter((name) => verdicts[name] === 'no').length;
export const isAllWell = (verdicts: Verdicts) => CHECKS.every((name) => verdicts[name] === 'yes');
