// The server's operations as functions. Each either gives what the contract says, or throws one of two things:
// Refused (the server said no, and what would be right) or Unreachable (no answer, so nobody knows whether it arrived;
// the same entry may be sent again under the same id).

import { problemWords } from '../words/sayings';
import { say } from '../words/words';
import { operations } from './contract';
import type {
  Accepted,
  AcceptEdit,
  AccessNotes,
  AccountEdit,
  Accounts,
  Backtest,
  CorrectionEdit,
  CounterDays,
  Device,
  DeviceEdit,
  Devices,
  Entry,
  FindingHistory,
  Findings,
  Floor,
  ForecastWorking,
  GroupFloor,
  GroupParts,
  GroupPartStudy,
  GroupVisits,
  Horizon,
  HourReading,
  HourReadingEdit,
  IntervalEdit,
  IntervalMoves,
  Join,
  JoinCode,
  JoinCodeEdit,
  KitEdit,
  KitReadiness,
  Kits,
  LifeParts,
  LifeStudy,
  Link,
  LinkEdit,
  Logbook,
  Machine,
  Me,
  Month,
  MovementEdit,
  NewLink,
  NewToken,
  Order,
  OrderChange,
  OrderEdit,
  Orders,
  PartStores,
  Photo,
  PointsEdit,
  Problem,
  Proof,
  Proposal,
  ProposalEdit,
  Rehearsal,
  RehearsalEdit,
  Readings,
  ReadingWorking,
  Rounds,
  SecondFactor,
  Sessions,
  SettleEdit,
  SheetLook,
  Shop,
  Signature,
  SignInEdit,
  Stop,
  StopCard,
  StopChange,
  StopEdit,
  StopEstimate,
  Stops,
  StopTry,
  StopWithdraw,
  StoredPartEdit,
  Stores,
  Task,
  TaskEdit,
  Today,
  TokenEdit,
  Tokens,
  UseChange,
  UseChangeEdit,
  UseChanges,
  WalkOrderEdit,
} from './contract';

/** The server's answer is no; the message says what would be right, in the language of the pages. */
export class Refused extends Error {
  constructor(readonly problem: Problem) {
    super(problemWords(problem));
    this.name = 'Refused';
  }
}

/** There was no answer that could be understood; the message says so to people, `why` what a program met. */
export class Unreachable extends Error {
  constructor(readonly why: string) {
    super(say('top.unreachable'));
    this.name = 'Unreachable';
  }
}

/** The server does not know who asks, or knows that person otherwise than this device does. */
const DOUBTS: readonly string[] = [
  'not-signed-in',
  'not-you',
  'not-allowed',
  'not-your-machine',
  'second-factor-needed',
];
let doubt: () => void = () => undefined;
/** Has it called whenever the server so doubts who asks. */
export function whenDoubted(act: () => void): void {
  doubt = act;
}

/** What kind of refusal it is: the sentence's code, else the coarser one. */
export const codeOf = ({ saying, code }: Pick<Problem, 'saying' | 'code'>): string => saying?.code ?? code ?? 'refused';

function refused(problem: Problem): Refused {
  if (DOUBTS.includes(codeOf(problem))) doubt();
  return new Refused(problem);
}

const ANSWER_MS_MAX = 15_000;
/** A photo on bad Wi-Fi: 900 KB at 150 kbit/s; a sheet at a desk. */
const FILE_MS_MAX = 60_000;

type Operation = keyof typeof operations;
interface Call {
  path?: Record<string, string>;
  query?: Record<string, string>;
  body?: unknown;
  /** A file instead of a body. */
  file?: { type: string; bytes: ArrayBuffer };
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

/** The body with its type and the time that it may take. */
function bodyOf({ body, file }: Call): { type?: string; body?: BodyInit; msMax: number } {
  if (file) return { type: file.type, body: file.bytes, msMax: FILE_MS_MAX };
  if (body) return { type: 'application/json', body: JSON.stringify(body), msMax: ANSWER_MS_MAX };
  return { msMax: ANSWER_MS_MAX };
}

async function answerTo(operation: Operation, call: Call): Promise<Response> {
  const { type, body, msMax } = bodyOf(call);
  const init: RequestInit = {
    method: operations[operation].method,
    headers: { accept: 'application/json', ...(type ? { 'content-type': type } : {}) },
    signal: AbortSignal.timeout(msMax),
    ...(body ? { body } : {}),
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

/** The same of an answer that is a file rather than JSON, byte for byte. */
async function askFile(operation: Operation, call: Call): Promise<Blob> {
  const response = await answerTo(operation, call);
  if (response.ok) return response.blob();
  const value = await jsonOf(response);
  throw isProblem(value) ? refused(value) : new Unreachable(`answer ${response.status}`);
}

const sheetOf = (bytes: ArrayBuffer) => ({ type: 'application/octet-stream', bytes });

async function ask<Answer>(operation: Operation, call: Call = {}): Promise<Answer> {
  const response = await answerTo(operation, call);
  const value = await jsonOf(response);
  if (response.ok) return value as Answer;
  if (isProblem(value)) throw refused(value);
  throw new Unreachable(`answer ${response.status}`);
}

export const client = {
  shop: () => ask<Shop>('shop'),
  floor: () => ask<Floor>('floor'),
  groupFloor: () => ask<GroupFloor>('groupFloor'),
  groupParts: () => ask<GroupParts>('groupParts'),
  groupPart: (kind: string, task: string) => ask<GroupPartStudy>('groupPart', { path: { kind, task } }),
  groupVisits: () => ask<GroupVisits>('groupVisits'),
  machine: (machine: string) => ask<Machine>('machine', { path: { machine } }),
  days: (machine: string, counter: string, from: string, to: string) =>
    ask<CounterDays>('days', { path: { machine }, query: { counter, from, to } }),
  addTask: (machine: string, body: TaskEdit) => ask<Task>('addTask', { path: { machine }, body }),
  changeTask: (machine: string, task: string, body: TaskEdit) =>
    ask<Task>('changeTask', { path: { machine, task }, body }),
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
  refusalOfLabels: async (which: 'labels' | 'shelfLabels', query: Record<string, string>): Promise<string> => {
    try {
      const response = await answerTo(which, { query });
      const value = response.ok ? null : await jsonOf(response);
      return isProblem(value) ? problemWords(value) : '';
    } catch {
      return '';
    }
  },
  /** @param query machine, kind */
  month: (month: string, query: Record<string, string>) => ask<Month>('month', { path: { month }, query }),
  findings: (query: Record<string, string>) => ask<Findings>('findings', { query }),
  finding: (finding: string) => ask<FindingHistory>('finding', { path: { finding } }),
  /** @param query machine, state */
  stops: (query: Record<string, string>) => ask<Stops>('stops', { query }),
  stop: (stop: string) => ask<StopCard>('stop', { path: { stop } }),
  agreeStop: (machine: string, body: StopEdit) => ask<Stop>('agreeStop', { path: { machine }, body }),
  changeStop: (stop: string, body: StopChange) => ask<Stop>('changeStop', { path: { stop }, body }),
  withdrawStop: (stop: string, body: StopWithdraw) => ask<Stop>('withdrawStop', { path: { stop }, body }),
  estimateStop: (body: StopTry) => ask<StopEstimate>('estimateStop', { body }),
  propose: (body: ProposalEdit) => ask<Proposal>('propose', { body }),
  rehearse: (body: RehearsalEdit) => ask<Rehearsal>('rehearse', { body }),
  proposal: () => ask<Proposal>('proposal'),
  cancelProposal: (proposal: string, body: Signature) => ask<Proposal>('cancelProposal', { path: { proposal }, body }),
  acceptProposal: (proposal: string, body: AcceptEdit) => ask<Accepted>('acceptProposal', { path: { proposal }, body }),
  undoProposal: (proposal: string, body: Signature) => ask<Accepted>('undoProposal', { path: { proposal }, body }),
  rounds: () => ask<Rounds>('rounds'),
  roundsOf: (machine: string) => ask<Rounds>('rounds', { query: { machine } }),
  keepPhoto: (photo: string, jpeg: ArrayBuffer) =>
    ask<Photo>('keepPhoto', { path: { photo }, file: { type: 'image/jpeg', bytes: jpeg } }),
  /** An entry of the outbox (outbox/entered.ts names their operations). */
  send: (operation: Operation, path: Record<string, string>, body: unknown) => ask<unknown>(operation, { path, body }),

  join: () => ask<Join>('join'),
  makeJoinCode: (body: JoinCodeEdit) => ask<JoinCode>('makeJoinCode', { body }),
  devices: () => ask<Devices>('devices'),
  joinDevice: (body: DeviceEdit) => ask<Device>('joinDevice', { body }),
  endDevice: (device: string, body: Signature) => ask<Device>('endDevice', { path: { device }, body }),

  me: () => ask<Me>('me'),
  signIn: (body: SignInEdit) => ask<Me>('signIn', { body }),
  signInByPin: (name: string, pin: string) => ask<Me>('signInByPin', { body: { name, pin } }),
  lookAtLink: (secret: string) => ask<Link>('lookAtLink', { body: { secret } }),
  signInByLink: (body: LinkEdit) => ask<Me>('signInByLink', { body }),
  signOut: () => ask<Me>('signOut', { body: {} }),
  ownSessions: () => ask<Sessions>('ownSessions'),
  endSession: (session: string) => ask<Sessions>('endSession', { path: { session }, body: {} }),
  endOtherSessions: () => ask<Sessions>('endOtherSessions', { body: {} }),
  /** @param now the present password; where there is none, the PIN */
  changePassword: (now: string, password: string) => ask<Me>('changePassword', { body: { now, password } }),
  changePin: (now: string, pin: string) => ask<Me>('changePin', { body: { now, pin } }),
  beginSecondFactor: (now: string) => ask<SecondFactor>('beginSecondFactor', { body: { now } }),
  setSecondFactor: (code: string) => ask<Me>('setSecondFactor', { body: { code } }),
  endSecondFactor: (now: string) => ask<Me>('endSecondFactor', { body: { now } }),
  accounts: () => ask<Accounts>('accounts'),
  makeAccount: (body: AccountEdit) => ask<NewLink>('makeAccount', { body }),
  changeAccount: (body: AccountEdit) => ask<Accounts>('changeAccount', { body }),
  endAccount: (name: string) => ask<Accounts>('endAccount', { body: { name } }),
  makeLink: (name: string) => ask<NewLink>('makeLink', { body: { name } }),
  endSessionsOf: (name: string) => ask<Accounts>('endSessionsOf', { body: { name } }),
  ruleSecondFactor: (demanded: boolean) => ask<Accounts>('ruleSecondFactor', { body: { demanded } }),
  tokens: () => ask<Tokens>('tokens'),
  makeToken: (body: TokenEdit) => ask<NewToken>('makeToken', { body }),
  endToken: (token: string) => ask<Tokens>('endToken', { path: { token }, body: {} }),
  accessNotes: () => ask<AccessNotes>('accessNotes'),

  /** @param query of one machine; without it, of every machine */
  horizon: (query?: { machine: string }) => ask<Horizon>('horizon', query ? { query } : {}),
  forecast: (machine: string, task: string) => ask<ForecastWorking>('forecast', { path: { machine, task } }),
  readings: (machine: string) => ask<Readings>('readings', { path: { machine } }),
  reading: (machine: string, task: string, what: string) =>
    ask<ReadingWorking>('reading', { path: { machine, task }, query: { what } }),
  backtest: (machine: string, counter: string) => ask<Backtest>('backtest', { path: { machine }, query: { counter } }),
  useChanges: () => ask<UseChanges>('useChanges'),
  announceUse: (body: UseChangeEdit) => ask<UseChange>('announceUse', { body }),
  withdrawUse: (change: string, body: Signature) => ask<UseChange>('withdrawUse', { path: { change }, body }),
  parts: () => ask<LifeParts>('parts'),
  /** @param query other costs and an interval to judge: planned, failed, interval */
  part: (kind: string, task: string, query: Record<string, string> = {}) =>
    ask<LifeStudy>('part', { path: { kind, task }, query }),
  moveInterval: (kind: string, task: string, body: IntervalEdit) =>
    ask<IntervalMoves>('moveInterval', { path: { kind, task }, body }),
  today: () => ask<Today>('today'),

  stores: () => ask<Stores>('stores'),
  storedPart: (part: string) => ask<PartStores>('storedPart', { path: { part } }),
  keepPart: (part: string, body: StoredPartEdit) => ask<PartStores>('keepPart', { path: { part }, body }),
  endPart: (part: string, body: Signature) => ask<Entry>('endPart', { path: { part }, body }),
  beginStores: (body: Signature) => ask<Entry>('beginStores', { body }),
  kits: () => ask<Kits>('kits'),
  keepKit: (body: KitEdit) => ask<Kits>('keepKit', { body }),
  /** At a desk, where the answer is waited for; at the shelf by the outbox. */
  moveStock: (body: MovementEdit) => ask<Entry>('moveStock', { body }),
  kitReadiness: () => ask<KitReadiness>('kitReadiness'),
  orders: () => ask<Orders>('orders'),
  placeOrder: (body: OrderEdit) => ask<Order>('placeOrder', { body }),
  changeOrder: (order: string, body: OrderChange) => ask<Order>('changeOrder', { path: { order }, body }),
  /** @param query supplier or order, language */
  orderListMail: (query: Record<string, string>) => askFile('orderListMail', { query }).then((mail) => mail.text()),
  /** @param query columns, where a person said what they are */
  lookAtSheet: (bytes: ArrayBuffer, query: Record<string, string>) =>
    ask<SheetLook>('lookAtSheet', { query, file: sheetOf(bytes) }),
  sheetMistakes: (bytes: ArrayBuffer, query: Record<string, string>) =>
    askFile('sheetMistakes', { query, file: sheetOf(bytes) }),
  /** @param query id, by; columns as in the look */
  readSheet: (bytes: ArrayBuffer, query: Record<string, string>) =>
    ask<Entry>('readSheet', { query, file: sheetOf(bytes) }),
};

/** Does the server answer at all? */
export async function isAlive(): Promise<boolean> {
  try {
    return (await fetch(operations.health.path, { signal: AbortSignal.timeout(5_000), cache: 'no-store' })).ok;
  } catch {
    return false;
  }
}
