// The server's operations as functions. Each either gives what the contract says, or throws one of two things:
// Refused (the server said no, and what would be right) or Unreachable (no answer, so nobody knows whether it arrived;
// the same entry may be sent again under the same id).

import { operations } from './contract';
import type {
  CorrectionEdit,
  CounterDays,
  DoneEdit,
  Entry,
  FindingHistory,
  Findings,
  Floor,
  HourReading,
  HourReadingEdit,
  Logbook,
  Machine,
  PointsEdit,
  Problem,
  Proof,
  SettleEdit,
  Shop,
  Signature,
  Task,
  TaskEdit,
  WalkOrderEdit,
} from './contract';

/** The server's answer is no; `problem.detail` says what would be right. */
export class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problem.detail);
    this.name = 'Refused';
  }
}

/** There was no answer that could be understood. */
export class Unreachable extends Error {
  constructor(readonly why: string) {
    super(why);
    this.name = 'Unreachable';
  }
}

const ANSWER_MS_MAX = 15_000;

type Operation = keyof typeof operations;
interface Call {
  path?: Record<string, string>;
  query?: Record<string, string>;
  body?: unknown;
}

/** The address of an operation: `{machine}` and the like filled in and escaped. */
export function addressOf(operation: Operation, call: Call = {}): string {
  const path = operations[operation].path.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = call.path?.[name];
    if (value === undefined) throw new Error(`${operation} needs ${name}`);
    return encodeURIComponent(value);
  });
  return call.query ? `${path}?${new URLSearchParams(call.query)}` : path;
}

async function answerTo(operation: Operation, call: Call): Promise<Response> {
  const init: RequestInit = {
    method: operations[operation].method,
    headers: { accept: 'application/json', ...(call.body ? { 'content-type': 'application/json' } : {}) },
    signal: AbortSignal.timeout(ANSWER_MS_MAX),
    ...(call.body ? { body: JSON.stringify(call.body) } : {}),
  };
  try {
    return await fetch(addressOf(operation, call), init);
  } catch (error) {
    throw new Unreachable(String(error));
  }
}

function isProblem(value: unknown): value is Problem {
  return typeof value === 'object' && value !== null && 'detail' in value && 'status' in value;
}

async function jsonOf(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch {
    throw new Unreachable(`answer ${response.status} is not JSON`);
  }
}

async function ask<Answer>(operation: Operation, call: Call = {}): Promise<Answer> {
  const response = await answerTo(operation, call);
  const value = await jsonOf(response);
  if (response.ok) return value as Answer;
  if (isProblem(value)) throw new Refused(value);
  throw new Unreachable(`answer ${response.status}`);
}

export const client = {
  shop: () => ask<Shop>('shop'),
  floor: () => ask<Floor>('floor'),
  machine: (machine: string) => ask<Machine>('machine', { path: { machine } }),
  days: (machine: string, counter: string, from: string, to: string) =>
    ask<CounterDays>('days', { path: { machine }, query: { counter, from, to } }),
  addTask: (machine: string, body: TaskEdit) => ask<Task>('addTask', { path: { machine }, body }),
  changeTask: (machine: string, task: string, body: TaskEdit) =>
    ask<Task>('changeTask', { path: { machine, task }, body }),
  markDone: (machine: string, task: string, body: DoneEdit) =>
    ask<Entry>('markDone', { path: { machine, task }, body }),
  retireTask: (machine: string, task: string, body: Signature) =>
    ask<Entry>('retireTask', { path: { machine, task }, body }),
  undo: (entry: string, body: Signature) => ask<Entry>('undo', { path: { entry }, body }),
  readHours: (machine: string, body: HourReadingEdit) => ask<HourReading>('readHours', { path: { machine }, body }),
  settleReading: (machine: string, reading: string, body: SettleEdit) =>
    ask<HourReading>('settleReading', { path: { machine, reading }, body }),
  logbook: (query: Record<string, string>) => ask<Logbook>('logbook', { query }),
  proveLogbook: () => ask<Proof>('proveLogbook'),
  correctEntry: (entry: string, body: CorrectionEdit) => ask<Entry>('correctEntry', { path: { entry }, body }),
  movePoints: (machine: string, body: PointsEdit) => ask<Entry>('movePoints', { path: { machine }, body }),
  changeWalk: (machine: string, body: WalkOrderEdit) => ask<Entry>('changeWalk', { path: { machine }, body }),
  /** What the server says against these labels; '' when it would print them, or cannot be asked. */
  refusalOfLabels: async (query: Record<string, string>): Promise<string> => {
    try {
      const response = await answerTo('labels', { query });
      const value = response.ok ? null : await jsonOf(response);
      return isProblem(value) ? value.detail : '';
    } catch {
      return '';
    }
  },
  findings: (query: Record<string, string>) => ask<Findings>('findings', { query }),
  finding: (finding: string) => ask<FindingHistory>('finding', { path: { finding } }),
};

/** Does the server answer at all? */
export async function isAlive(): Promise<boolean> {
  try {
    return (await fetch(operations.health.path, { signal: AbortSignal.timeout(5_000), cache: 'no-store' })).ok;
  } catch {
    return false;
  }
}
