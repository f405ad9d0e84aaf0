// Written from api/openapi.yaml by `npm run wire`; a test compares the two. Change the contract, not this file.

export interface Problem {
  /** about:blank */
  type: string;
  title: string;
  status: number;
  /** one sentence: what, where, what would be right */
  detail: string;
  /** the kind of refusal for programs: bad-input, not-found, conflict ... */
  code?: string;
}

export interface Readiness {
  ready: boolean;
  checks: Array<{
    name: string;
    result: 'pass' | 'warn' | 'fail';
    detail: string;
  }>;
}

export interface Shop {
  plant: {
    name: string;
    zone: string;
    today: string;
  };
  cells: Titled[];
  kinds: Titled[];
  people: Array<{
    name: string;
    skill: Skill;
  }>;
  counter_words: CounterWord[];
  /** true: nobody but this computer can reach the server */
  loopback_only: boolean;
  version: string;
}

export interface Join {
  /** this line is HTTPS */
  encrypted: boolean;
  /** a loopback peer that asks for a loopback Host: it may, without joining */
  this_computer: boolean;
  /** who asks, if it has joined and still may */
  device: Device | null;
  /** whom a phone has to trust; null: nobody, there is no HTTPS or its certificate is from elsewhere */
  authority: Authority | null;
  /** how other devices reach the server, the encrypted ones first: https://shop.example:8471; empty: they do not */
  addresses: string[];
}

export interface Authority {
  /** as phones show it */
  title: string;
  ends_at: string;
  /** SHA-256 of the certificate, 64 hexadecimal digits */
  fingerprint: string;
}

export interface JoinCodeEdit {
  id: string;
  /** who lets a device join */
  by: string;
}

export interface JoinCode {
  /** 8 signs; letter case, blanks and hyphens do not matter when it is typed */
  code: string;
  valid_until: string;
  /** what the device opens: http://shop.example:8470/join?code=K7RW3DXM */
  address: string;
  /** the address as a QR code; a margin of 4 modules on each side is the page's affair */
  qr: {
    /** modules */
    side: number;
    /** the dark modules as the path of an SVG, one unit a module */
    path: string;
  };
}

export interface DeviceEdit {
  id: string;
  code: string;
  /** Phone at the lathes */
  title: string;
}

export interface Device {
  id: string;
  title: string;
  enrolled_at: string;
  /** who made the code */
  enrolled_by: string;
  /** it joined over HTTPS */
  encrypted: boolean;
  /** the plant's day */
  last_seen_on?: string;
  /** from when on it may no longer */
  ended_at?: string;
  ended_by?: string;
}

export interface Devices {
  devices: Device[];
}

export interface Titled {
  key: string;
  title: string;
}

export interface CounterWord {
  /** operating */
  key: string;
  title: string;
  /** h, rev, m, 1 */
  unit: string;
  /** what exactly is counted */
  definition: string;
}

export type Skill = 'operator' | 'technician' | 'outside service';

export type Energy = 'in production' | 'powered at rest' | 'isolated';

export type WorkType = 'inspect' | 'clean' | 'lubricate' | 'top up' | 'adjust' | 'measure' | 'replace' | 'overhaul';

/** coming: the heads-up is reached; due: the interval is used up; overdue: beyond the tolerance */
export type TaskState = 'in hand' | 'coming' | 'due' | 'overdue';

export interface Floor {
  now: string;
  machines: FloorMachine[];
}

export interface FloorMachine {
  key: string;
  name: string;
  kind: string;
  cell: string;
  doing: Doing;
  feed: Feed;
  counters: Counter[];
  /** the most urgent task, checks of each shift or day left out */
  nearest: Task | null;
  tally: Tally;
}

export interface Tally {
  in_hand: number;
  coming: number;
  due: number;
  overdue: number;
}

export interface Doing {
  state: 'cutting' | 'running' | 'spindle turning' | 'standing' | 'off' | 'not known';
  since: string | null;
}

export interface Feed {
  state: 'live' | 'catching up' | 'lost' | 'none';
  last_sign_at: string | null;
  /** observations still to be read */
  behind: number;
  /** the last trouble in a sentence, empty when there is none */
  says: string;
}

/** total = counted + filled + what confirmed hand readings added. Unknown time is not zero: it is shown, and filled by the control's own counter where there is one. */
export interface Counter {
  /** operating, spindle, spindle Srpm, revolutions Srpm, travel Xfrt, own auto_time */
  key: string;
  title: string;
  unit: string;
  definition: string;
  counted: number;
  /** hours in which nobody knows */
  unknown_h: number;
  /** of the unknown time, what the control's own counter says ran on */
  filled: number;
  /** what settled hand readings add */
  adjusted?: number;
  total: number;
  today: number;
  today_unknown_h: number;
  /** counting since */
  since: string | null;
}

export interface CounterDays {
  machine: string;
  counter: string;
  unit: string;
  days: Array<{
    date: string;
    counted: number;
    unknown_h: number;
    filled: number;
  }>;
}

/** exactly one of counter and calendar */
export interface Trigger {
  counter?: string;
  unit?: string;
  interval?: number;
  heads_up?: number;
  tolerance?: number;
  /** counter now minus counter when last done */
  used?: number;
  /** interval - used; below zero: over */
  left?: number;
  counter_now?: number;
  counter_then?: number;
  /** 12 months, 1 week, 1 shift */
  calendar?: string;
  heads_up_days?: number;
  tolerance_days?: number;
  due_on?: string;
  days_left?: number;
  state: TaskState;
  /** used / interval, 1 = used up */
  share_used?: number;
  /** this trigger is the one that decides the task's state */
  leads: boolean;
}

/** exactly one of counter (with interval) and calendar */
export interface TriggerEdit {
  counter?: string;
  interval?: number;
  heads_up?: number;
  tolerance?: number;
  calendar?: string;
  heads_up_days?: number;
  tolerance_days?: number;
}

export interface Part {
  name: string;
  quantity: number;
  unit: string;
}

/** the ends between which a value lies; one at least, and a value on an end is within */
export interface Bounds {
  min?: number;
  max?: number;
}

export interface TaskReading {
  /** apart from the task's other readings: pH, supply air */
  what: string;
  unit: string;
  warning?: Bounds;
  action?: Bounds;
}

export interface Task {
  key: string;
  machine: string;
  title: string;
  assembly: string;
  point?: number;
  work: WorkType;
  skill: Skill;
  energy: Energy;
  minutes: number;
  triggers: Trigger[];
  state: TaskState;
  /** the shop's own task, not from a starting set */
  own: boolean;
  steps: string[];
  reason: string;
  caution: string;
  parts: Part[];
  /** what is read off and written down; absent without any */
  readings?: TaskReading[];
  /** of a top up: in which the quantity filled in is written down */
  quantity_unit?: string;
  /** counts the changes; a change names the version it saw */
  version: number;
  last_done?: Entry;
  /** from when it counts when it was never done */
  began_at?: string;
}

export interface TaskEdit {
  id: string;
  by: string;
  /** the version that the person saw (when changing) */
  version?: number;
  title: string;
  assembly: string;
  point?: number;
  work: WorkType;
  skill: Skill;
  energy: Energy;
  minutes: number;
  triggers: TriggerEdit[];
  steps?: string[];
  reason?: string;
  caution?: string;
  parts?: Part[];
  /** what is read off and written down; left out of a change, they stay as they are */
  readings?: TaskReading[];
  /** of a top up: in which the quantity filled in is written down; left out of a change, it stays as it is */
  quantity_unit?: string;
}

export interface Signature {
  id: string;
  by: string;
  /** by the device's clock */
  at?: string;
}

export interface DoneEdit {
  id: string;
  by: string;
  /** when it was done, by the device's clock; now when absent */
  at?: string;
  note?: string;
}

export interface Entry {
  id: string;
  kind: 'task done' | 'task added' | 'task changed' | 'task retired' | 'undone' | 'hours read' | 'hours settled';
  machine: string;
  task?: string;
  by: string;
  /** by the server's clock */
  at: string;
  device_at?: string;
  /** the entry in a sentence */
  says: string;
  note?: string;
  /** every counter's total at that moment */
  counters?: Record<string, number>;
  undo_until?: string;
  undone?: boolean;
}

export interface HourReadingEdit {
  id: string;
  by: string;
  /** what the display counts: powered, operating ... */
  counter: string;
  display_h: number;
  read_at?: string;
}

export interface HourReading {
  id: string;
  counter: string;
  display_h: number;
  read_at: string;
  by: string;
  /** the counter's own total at that moment */
  counted_h: number;
  /** display minus total for this period of the display */
  offset_h?: number;
  /** rise of the display minus rise of the counted hours since the reading before */
  difference_h?: number;
  /** fits: within what unknown time and rounding explain */
  state: 'fits' | 'to be settled' | 'settled';
  says: string;
  settled_as?: 'display replaced or reset' | 'misread' | 'display is right' | 'counted hours are right';
}

export interface SettleEdit {
  id: string;
  by: string;
  settled_as: 'display replaced or reset' | 'misread' | 'display is right' | 'counted hours are right';
}

export interface Point {
  number: number;
  assembly: string;
  title: string;
  x: number;
  y: number;
}

export interface Machine {
  key: string;
  name: string;
  kind: string;
  cell: string;
  note: string;
  year?: number;
  doing: Doing;
  feed: Feed;
  counters: Counter[];
  assemblies: Titled[];
  points: Point[];
  tasks: Task[];
  retired: Task[];
  /** the latest 50 */
  entries: Entry[];
  hour_readings: HourReading[];
}

export const operations = {
  health: { method: 'GET', path: '/healthz' },
  readiness: { method: 'GET', path: '/readyz' },
  metrics: { method: 'GET', path: '/metrics' },
  contract: { method: 'GET', path: '/api/openapi.json' },
  shop: { method: 'GET', path: '/api/shop' },
  floor: { method: 'GET', path: '/api/floor' },
  labels: { method: 'GET', path: '/api/labels.pdf' },
  authority: { method: 'GET', path: '/authority.crt' },
  join: { method: 'GET', path: '/api/join' },
  makeJoinCode: { method: 'POST', path: '/api/join-codes' },
  devices: { method: 'GET', path: '/api/devices' },
  joinDevice: { method: 'POST', path: '/api/devices' },
  endDevice: { method: 'POST', path: '/api/devices/{device}/end' },
  events: { method: 'GET', path: '/api/events' },
  machine: { method: 'GET', path: '/api/machines/{machine}' },
  days: { method: 'GET', path: '/api/machines/{machine}/days' },
  addTask: { method: 'POST', path: '/api/machines/{machine}/tasks' },
  changeTask: { method: 'PUT', path: '/api/machines/{machine}/tasks/{task}' },
  markDone: { method: 'POST', path: '/api/machines/{machine}/tasks/{task}/done' },
  retireTask: { method: 'POST', path: '/api/machines/{machine}/tasks/{task}/retire' },
  undo: { method: 'POST', path: '/api/entries/{entry}/undo' },
  readHours: { method: 'POST', path: '/api/machines/{machine}/hour-readings' },
  settleReading: { method: 'POST', path: '/api/machines/{machine}/hour-readings/{reading}/settle' },
} as const;
