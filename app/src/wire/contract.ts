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
  saying?: Saying;
}

/** What an English sentence beside it says, for whoever says it in another language: which sentence it is, and what is filled in. It is there for the sentences that people meet; the rare ones have none. */
export interface Saying {
  code: SayingCode;
  /** names, words of this contract, dates (2026-03-02) */
  texts: Record<string, string>;
  numbers: Record<string, number>;
}

export type SayingCode =
  | 'undo-twice'
  | 'undo-not-own'
  | 'undo-late'
  | 'no-machine'
  | 'no-task'
  | 'no-entry'
  | 'no-finding'
  | 'no-counter'
  | 'task-retired'
  | 'task-retired-on'
  | 'task-changed'
  | 'id-used'
  | 'reading-unit'
  | 'value-beyond'
  | 'value-too-low'
  | 'value-too-high'
  | 'reading-newer'
  | 'reading-settled'
  | 'reading-fits'
  | 'text-length'
  | 'text-long'
  | 'name-missing'
  | 'photo-large'
  | 'photo-kind'
  | 'photos-many'
  | 'changes-nothing'
  | 'dates-turned'
  | 'days-many'
  | 'entries-many'
  | 'withdrawn'
  | 'not-joined'
  | 'only-here'
  | 'not-signed-in'
  | 'not-allowed'
  | 'not-your-machine'
  | 'not-you'
  | 'wrong-sign-in'
  | 'code-needed'
  | 'wrong-code'
  | 'try-later'
  | 'open-line'
  | 'link-over'
  | 'password-short'
  | 'password-long'
  | 'password-common'
  | 'pin-form'
  | 'pin-simple'
  | 'password-needed'
  | 'last-lead'
  | 'account-there'
  | 'no-account'
  | 'second-factor-needed'
  | 'own-second-factor'
  | 'kept-at-edge'
  | 'disk-full'
  | 'disk-failed'
  | 'label-code'
  | 'label-address'
  | 'no-check'
  | 'no-round'
  | 'feed-unreachable'
  | 'feed-late'
  | 'feed-odd'
  | 'feed-no-device'
  | 'feed-silent'
  | 'feed-odd-message'
  | 'broker-unreachable'
  | 'broker-late'
  | 'broker-refuses'
  | 'use-not-counted'
  | 'use-few-days'
  | 'display-first'
  | 'display-before'
  | 'display-fell'
  | 'display-fast'
  | 'display-differs'
  | 'display-fits'
  | 'undo-of-stop'
  | 'no-stop'
  | 'no-shift'
  | 'stop-past'
  | 'stop-empty'
  | 'stop-full'
  | 'stop-turned'
  | 'stop-changed'
  | 'stop-closed'
  | 'task-in-stop'
  | 'crew-short'
  | 'stop-too-long'
  | 'cell-full'
  | 'plant-closed'
  | 'machine-held'
  | 'shift-begun'
  | 'parts-late'
  | 'visit-shared'
  | 'one-isolation'
  | 'one-shut-down'
  | 'standing-free'
  | 'before-median'
  | 'chance-falls'
  | 'later-than-rule'
  | 'guards-people'
  | 'after-parts'
  | 'around-hold'
  | 'crew-away'
  | 'person-away'
  | 'due-when-closed'
  | 'tasks-elsewhere'
  | 'no-place'
  | 'no-place-beside'
  | 'no-place-several'
  | 'room-later'
  | 'room-people'
  | 'room-cell'
  | 'room-no-hold'
  | 'room-other-day'
  | 'room-open'
  | 'room-ready-earlier'
  | 'room-longer-shift'
  | 'proposal-running'
  | 'rehearsal-running'
  | 'no-proposal'
  | 'proposal-not-ready'
  | 'difference-accepted'
  | 'nothing-accepted'
  | 'life-one-age'
  | 'life-no-wear'
  | 'life-undetermined'
  | 'life-no-failure'
  | 'life-one-failure'
  | 'life-odd-shape'
  | 'life-few-failures'
  | 'life-hardly-failures'
  | 'life-wide-shape'
  | 'life-wear-unknown'
  | 'life-no-age'
  | 'life-none-failed'
  | 'life-never-together'
  | 'life-few-to-compare'
  | 'no-group-part'
  | 'no-part'
  | 'plant-moved'
  | 'interval-demanded'
  | 'interval-calendar'
  | 'no-month'
  | 'month-ahead'
  | 'month-before'
  | 'no-reading'
  | 'reading-few'
  | 'reading-alike'
  | 'fills-few'
  | 'reading-few-since'
  | 'reading-no-trend'
  | 'reading-gone'
  | 'reading-needed'
  | 'no-stored-part'
  | 'parts-ring'
  | 'part-whole'
  | 'part-unit'
  | 'stock-below-nothing'
  | 'serials-count'
  | 'more-than-ordered'
  | 'no-order'
  | 'order-over'
  | 'part-changed'
  | 'stores-changed'
  | 'part-there'
  | 'part-ordered'
  | 'part-in-kit'
  | 'part-substitute'
  | 'parts-all-named'
  | 'price-assumed'
  | 'lead-assumed'
  | 'wanted-chance'
  | 'needs-assumed'
  | 'needed-for-stops'
  | 'needed-when-due'
  | 'needed-for-failures'
  | 'delivery-takes'
  | 'too-late-to-be-sure'
  | 'order-open'
  | 'joins-an-order'
  | 'more-costs-less'
  | 'minimum-raises'
  | 'shelf-life-limits'
  | 'may-outlive-shelf'
  | 'chase-open-order'
  | 'sheet-no-key'
  | 'sheet-number-missing'
  | 'sheet-title-missing'
  | 'sheet-twice'
  | 'sheet-no-number'
  | 'sheet-two-ways'
  | 'sheet-negative'
  | 'sheet-not-whole'
  | 'sheet-yes-no'
  | 'sheet-no-supplier'
  | 'sheet-mistakes';

/** what adds up over machines; hours, counts, money in the currency of the shop */
export interface MonthSums {
  machines: number;
  /** PBT: hours of the shifts without those of agreed stops */
  planned_h: number;
  /** APT: a program ran */
  operating_h: number;
  powered_h: number;
  /** nobody knows whether a program ran */
  unknown_h: number;
  /** nobody knows whether the power was on */
  powered_unknown_h: number;
  /** FE: that happened in the month */
  failures: number;
  /** sum of TBF */
  between_h: number;
  /** sum of TTR of the month's failures, until its end */
  repair_h: number;
  /** not over at the month's end */
  repairs_going_on: number;
  /** CMT: machines stood for failures */
  corrective_h: number;
  /** PMT: machines stood for agreed stops */
  stops_h: number;
  /** hands-on hours of the tasks done */
  work_h: number;
  work_in_stops_h: number;
  tasks_done: number;
  /** before they were overdue */
  tasks_done_in_time: number;
  /** became overdue in the month and were not done */
  tasks_overdue_undone: number;
  /** of rounds, that are over */
  turns: number;
  turns_walked: number;
  care_cost: number;
  failure_cost: number;
}

export interface FigureValue {
  value: number | null;
  /** where there is no value: it is at least that */
  low?: number;
  /** and at most that */
  high?: number;
  /** of the MTBF by failures, also where there was none: with the confidence of the month the true mean is at least that */
  at_least?: number;
  /** why there is neither */
  none?:
    | 'nothing planned'
    | 'more than planned'
    | 'no hours'
    | 'no failure'
    | 'nothing stood'
    | 'no work'
    | 'no task'
    | 'no round'
    | 'no cost';
}

export interface FigureSource {
  edition: string;
  confirmed: string;
  memory: string;
  check: string;
}

export interface MonthFigure {
  key:
    | 'availability'
    | 'technical availability'
    | 'mtbf by failures'
    | 'mtbf by iso 22400'
    | 'mttr by failures'
    | 'mttr by iso 22400'
    | 'corrective ratio'
    | 'planned share'
    | 'tasks in time'
    | 'rounds walked'
    | 'failure cost share';
  title: string;
  /** 1: a share from 0 to 1 */
  unit: '1' | 'h';
  now: FigureValue;
  before?: FigureValue;
  definition: string;
  formula: string;
  source: FigureSource;
}

export interface MonthMachine {
  machine: string;
  sums: MonthSums;
  /** for failures and stops */
  stood_h: number;
}

export interface MonthFailure {
  finding: string;
  machine: string;
  what: string;
  found_at: string;
  settled_at: string | null;
  /** within the month */
  stood_h: number;
  /** it happened in the month */
  of_month: boolean;
  /** it was not settled at the month's end */
  goes_on: boolean;
  /** the counter when it was found */
  operating_h?: number;
}

export interface MonthStop {
  stop: string;
  machine: string;
  on: string;
  began_at: string;
  ended_at: string;
  /** within the month */
  stood_h: number;
  done: number;
  of: number;
}

export interface MonthWork {
  entry: string;
  machine: string;
  task: string;
  title: string;
  by: string;
  at: string;
  /** hands on */
  minutes: number;
  /** a person said the minutes; else they are the planned ones */
  measured: boolean;
  /** by the triggers of the task as they are now */
  in_time: boolean;
  stop?: string;
}

export interface MonthOverdue {
  machine: string;
  task: string;
  title: string;
  /** it became overdue in the month */
  of_month: boolean;
}

export interface MonthDay {
  date: string;
  planned_h: number;
  operating_h: number;
  unknown_h: number;
  powered_h: number;
  powered_unknown_h: number;
}

export interface Month {
  month: string;
  /** of the days that the shop has seen */
  first: string;
  last: string;
  until: string;
  is_over: boolean;
  /** the shop's first month */
  began: string;
  /** the month that it is now */
  present: string;
  machine?: string;
  kind?: string;
  currency: string;
  labour_per_hour: number;
  /** of at_least */
  confidence: number;
  sums: MonthSums;
  sums_before?: MonthSums;
  figures: MonthFigure[];
  findings_made: number;
  findings_settled: number;
  /** those that stood longest first */
  machines: MonthMachine[];
  failures: MonthFailure[];
  stops: MonthStop[];
  works: MonthWork[];
  overdue: MonthOverdue[];
  /** of tasks */
  changes: Entry[];
  /** where the month is one machine's */
  days?: MonthDay[];
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
  kinds: KindTitle[];
  people: Array<{
    name: string;
    skill: Skill;
  }>;
  counter_words: CounterWord[];
  /** of every amount of money, ISO 4217 */
  currency: string;
  /** true: nobody but this computer can reach the server */
  loopback_only: boolean;
  /** true: the own site of a group of plants, which has no machines */
  group: boolean;
  /** true: the plant's record is kept by a server at the plant itself; what is here came from there, for looking only */
  kept_at_edge: boolean;
  /** the moment of which it is; null: none has come, or the record is kept here */
  from_edge_at: string | null;
  version: string;
}

export interface Shipments {
  /** of the shipment that was taken last; 0: none */
  number: number;
  /** of its bytes; empty: none was taken */
  sha256: string;
  /** by the edge's clock */
  made_at: string | null;
  taken_at: string | null;
  /** what has come of the next one; null: nothing */
  next: PiecesHere | null;
}

export interface PiecesHere {
  /** of the whole shipment */
  sha256: string;
  /** into how many pieces it was cut */
  of: number;
  /** from 0, in order */
  pieces: number[];
}

export interface PieceTaken {
  /** true: it was the last one missing, and the shipment has been taken */
  taken: boolean;
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

export type Role = 'outside' | 'viewer' | 'operator' | 'technician' | 'lead';

export type Permission =
  'watch' | 'look' | 'look wide' | 'enter' | 'work' | 'stock' | 'agree' | 'shape' | 'admit' | 'send';

export type Nothing = Record<string, unknown>;

export interface Me {
  /** null: nobody has signed in */
  name: string | null;
  role: Role | null;
  permissions: Permission[];
  /** keys of those that the account is limited to; null: all */
  machines: string[] | null;
  /** the last day on which the person may */
  until: string | null;
  /** how the session began */
  way: 'password' | 'pin' | 'link' | 'token' | null;
  session: string | null;
  has_password: boolean;
  has_pin: boolean;
  has_second_factor: boolean;
  /** the plant demands one of this role: until it is set up the person has no permission */
  needs_second_factor: boolean;
  /** false: nobody has an account yet; the first is made on the server's computer */
  can_sign_in: boolean;
  /** passwords are not taken here: the line is not encrypted and comes from elsewhere */
  is_open_line: boolean;
  /** at a device that has joined: who has a PIN, by name */
  pin_people: string[];
}

export interface SignInEdit {
  name: string;
  password: string;
  /** of the second factor: 6 digits */
  code?: string;
}

export interface PinSignInEdit {
  name: string;
  /** 4 to 6 digits */
  pin: string;
}

export interface LinkSecret {
  /** what stands behind the # in the link */
  secret: string;
}

export interface Link {
  name: string;
  role: Role;
  valid_until: string;
}

export interface LinkEdit {
  secret: string;
  /** 12 to 128 characters, any; not a common one */
  password?: string;
  /** 4 to 6 digits */
  pin?: string;
}

export interface PasswordEdit {
  now: string;
  password: string;
}

export interface PinEdit {
  now: string;
  pin: string;
}

export interface NowEdit {
  /** the present password */
  now: string;
}

export interface CodeEdit {
  /** 6 digits */
  code: string;
}

export interface SecondFactor {
  /** base32 (RFC 4648), to be typed where no camera is */
  secret: string;
  /** the same as otpauth:// address */
  address: string;
  qr: Qr;
}

export interface Session {
  id: string;
  way: 'password' | 'pin' | 'link';
  /** the title of the device that has joined, where it began there */
  device: string | null;
  begun_at: string;
  seen_at: string;
  /** if nothing comes of it before */
  ends_at: string;
  is_this: boolean;
}

export interface Sessions {
  sessions: Session[];
}

export interface AccountEdit {
  /** as it stands in the logbook: one of the shop's people, or another */
  name: string;
  role: Role;
  /** keys; outside service needs one at least, other roles have all */
  machines?: string[];
  /** the last day, included; outside service needs one */
  until?: string;
}

export interface NameEdit {
  name: string;
}

export interface Account {
  name: string;
  role: Role;
  machines: string[] | null;
  until: string | null;
  /** a person, or: this computer */
  made_by: string;
  made_at: string;
  ended_at: string | null;
  has_password: boolean;
  has_pin: boolean;
  has_second_factor: boolean;
  /** of a one-time link that was not used yet */
  link_until: string | null;
  seen_at: string | null;
  /** that go on */
  sessions: number;
}

export interface SecondFactorRule {
  demanded: boolean;
}

export interface Accounts {
  accounts: Account[];
  /** of the office roles */
  second_factor_demanded: boolean;
  office_roles: Role[];
}

export interface NewLink {
  name: string;
  /** where the person goes: path and secret, /enter#..., behind the address under which that person reaches the server */
  link: string;
  valid_until: string;
  qr: Qr;
}

export interface TokenEdit {
  /** what it is for: 1 to 60 characters */
  title: string;
  role: Role;
  /** of the role's; without it all of them. admit is never among them */
  permissions?: Permission[];
  /** outside service needs one at least */
  machines?: string[];
  /** how long it is good */
  days: number;
}

export interface Token {
  id: string;
  title: string;
  role: Role;
  permissions: Permission[];
  machines: string[] | null;
  made_by: string;
  made_at: string;
  ends_at: string;
  used_on: string | null;
  ended_at: string | null;
  ended_by: string | null;
}

export interface Tokens {
  tokens: Token[];
}

export interface NewToken {
  token: Token;
  /** goes into Authorization: Bearer ...; it is not shown again */
  secret: string;
}

export interface AccessNote {
  at: string;
  /** a person, or: this computer */
  by: string;
  what:
    | 'account made'
    | 'account changed'
    | 'account ended'
    | 'link made'
    | 'link used'
    | 'signed in'
    | 'sign in refused'
    | 'sessions ended'
    | 'password changed'
    | 'pin changed'
    | 'second factor set'
    | 'second factor ended'
    | 'second factor demanded'
    | 'second factor offered'
    | 'token made'
    | 'token ended';
  /** whose account, which token; empty: the whole shop */
  about: string;
}

export interface AccessNotes {
  notes: AccessNote[];
}

/** an address as a QR code; a margin of 4 modules on each side is the page's affair */
export interface Qr {
  /** modules */
  side: number;
  /** the dark modules as the path of an SVG, one unit a module */
  path: string;
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
  qr: Qr;
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

export interface KindTitle {
  key: string;
  title: string;
  /** in German; empty: nobody wrote it */
  title_de: string;
  services: KindService[];
}

/** tasks that are done together about once a year, as one plan */
export interface KindService {
  /** yearly */
  key: string;
  title: string;
  title_de: string;
  /** from one service to the next */
  months: number;
  /** who do it together */
  people: number;
  /** keys; a machine need not have all of them */
  tasks: string[];
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

export interface GroupFloor {
  now: string;
  plants: GroupPlant[];
}

export interface GroupPlant {
  /** the plant's site is at this name below the group's: KEY.shops.example */
  key: string;
  title: string;
  /** whether a server answers for it now */
  held: boolean;
  /** what its server last told; null: nothing yet */
  line: PlantLine | null;
}

export interface PlantLine {
  as_of: string;
  machines: GroupMachine[];
  /** 13 weeks from this one on */
  weeks: GroupWeek[];
  /** of the outside service, as in GroupVisits */
  visits: GroupVisit[];
}

export interface GroupMachine {
  key: string;
  name: string;
  kind: string;
  doing: 'cutting' | 'running' | 'spindle turning' | 'standing' | 'off' | 'not known';
  feed: 'live' | 'catching up' | 'lost' | 'none';
  coming: number;
  due: number;
  overdue: number;
  /** the title of the task that is nearest to falling due, or furthest beyond it */
  nearest: string | null;
  /** of each open finding its severity, the most severe first */
  findings: Severity[];
  next_stop_on: string | null;
}

export interface GroupVisits {
  now: string;
  plants: PlantVisits[];
}

export interface PlantVisits {
  /** the plant's site is at this name below the group's */
  key: string;
  title: string;
  /** those that are not over, by when they begin; null: nothing was told of them yet */
  visits: GroupVisit[] | null;
}

/** all agreed stops of one day and shift in which the outside service has work */
export interface GroupVisit {
  /** the plant's day */
  on: string;
  shift: string;
  begins_at: string;
  ends_at: string;
  stops: GroupVisitStop[];
  /** of the outside service's people, all together */
  work_h: number;
  /** what its coming takes; 0 where the plant says nothing of it */
  way_h: number;
  /** the same in money */
  way_cost: number;
  /** ISO 4217 */
  currency: string;
}

export interface GroupVisitStop {
  stop: string;
  /** its name */
  machine: string;
}

export interface GroupWeek {
  /** its Monday */
  week_on: string;
  /** that most likely fall due in it; in the first also what is due already */
  tasks: number;
  minutes: number;
}

export interface GroupParts {
  now: string;
  /** of the group */
  plants: number;
  /** those whose lives are among these; the others are read within minutes */
  plants_read: number;
  parts: GroupPart[];
}

/** a kind of part, named by the library's task that replaces or overhauls it on machines of a kind, counted on the counter of most plants */
export interface GroupPart {
  kind: string;
  task: string;
  title: string;
  work: WorkType;
  /** on which its lives are counted; absent: days */
  counter?: string;
  unit: string;
  plants: number;
  lives: number;
  failures: number;
  /** unknown: the lives allow neither test */
  verdict: 'differ' | 'no difference seen' | 'unknown';
  /** where plants differ the title of the plant that fails most often beside what it could expect */
  fails_most?: string;
  fails_least?: string;
}

export interface GroupPartStudy {
  now: string;
  /** when it was worked out */
  as_of: string;
  part: GroupPart;
  /** a test whose p is below it says that plants differ: 0.05, of two tests 0.025 */
  p_needed: number;
  log_rank?: DifferenceTest;
  no_log_rank?: Remark;
  weibull?: DifferenceTest;
  no_weibull?: Remark;
  /** the fit of all lives together */
  pooled?: FitFigures;
  not_pooled?: Remark;
  /** of all lives together; at most 40 points, as of each plant */
  survival: SurvivalPoint[];
  /** in the order of their titles */
  plants: GroupPartPlant[];
  /** titles of plants that count its lives on another counter: left out */
  on_other_counter: string[];
}

export interface DifferenceTest {
  statistic: number;
  degrees: number;
  /** how likely plants that do not differ would look as different as these, or more */
  p: number;
  by: 'chi-squared' | 'permutation';
  /** by which the statistic is divided for p, for small samples */
  correction: number;
}

export interface GroupPartPlant {
  /** its key */
  plant: string;
  title: string;
  machines: number;
  lives: number;
  failures: number;
  left_out: number;
  /** failures, were all plants alike (log-rank) */
  expected?: number;
  /** false: fewer than five failures, or no fit */
  is_in_weibull_test: boolean;
  fit?: FitFigures;
  /** why there is no fit */
  refused?: Remark;
  /** the present one */
  interval?: number;
  /** of the least expected cost by the plant's own lives, under its own costs; absent: they do not say */
  best_by_own?: BestInterval;
  /** the same by the lives of all plants */
  best_by_pooled?: BestInterval;
  survival: SurvivalPoint[];
}

export interface BestInterval {
  /** absent: run to failure */
  interval?: number;
}

/** the likeliest Weibull distribution; ranges by likelihood ratio, 95 % */
export interface FitFigures {
  shape: number;
  scale: number;
  shape_range: Ends;
  scale_range: Ends;
  /** the age by which a tenth has failed */
  b10: number;
  b10_range: Ends;
}

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
  /** of each open finding its severity, the most severe first */
  findings: Severity[];
  /** where each of its rounds stands in the turn that runs */
  rounds: RoundStanding[];
  /** the first agreed stop that is not over */
  next_stop: NextStop | null;
}

export interface NextStop {
  id: string;
  on: string;
  shift: string;
  energy: Energy;
  /** where the stores keep parts */
  kit?: KitState;
}

export interface RoundStanding {
  rhythm: Rhythm;
  state: TurnState;
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
  saying?: Saying;
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

/** exactly one of counter, calendar and reading */
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
  /** what is read: supply air; due once a value since the task was last done is beyond the limit */
  reading?: string;
  /** the task that reads it */
  of?: string;
  limit?: LimitKind;
  /** the limit that is beyond, or nearest to the last value */
  limit_at?: number;
  /** the last since the task was last done; absent: not read since */
  last_value?: number;
  read_on?: string;
  state: TaskState;
  /** used / interval, 1 = used up; of a reading how far it has come to the limit */
  share_used?: number;
  /** this trigger is the one that decides the task's state */
  leads: boolean;
}

/** exactly one of counter (with interval), calendar and reading (with of and limit) */
export interface TriggerEdit {
  counter?: string;
  interval?: number;
  heads_up?: number;
  tolerance?: number;
  calendar?: string;
  heads_up_days?: number;
  tolerance_days?: number;
  reading?: string;
  /** the key of the task on the same machine that reads it */
  of?: string;
  limit?: LimitKind;
}

export type LimitKind = 'warning' | 'action';

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
  /** keys of tasks that come before it where both are done in one stop; absent without any */
  after?: string[];
  demanded_by?: Demand;
  costs?: PartCosts;
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
  /** keys of the machine's tasks that come before it where both are done in one stop; left out of a change, they stay as they are */
  after?: string[];
  demanded_by?: Demand;
  costs?: PartCosts;
}

export interface Remark {
  saying: Saying;
  says: string;
}

export interface LifeParts {
  now: string;
  currency: string;
  parts: LifePart[];
}

/** a part, named by the task that replaces or overhauls it, over all machines of a kind; ages and intervals in `unit` */
export interface LifePart {
  kind: string;
  task: string;
  title: string;
  work: WorkType;
  /** on which its lives are counted; absent: days */
  counter?: string;
  unit: string;
  machines: number;
  /** the present one, of several the middle one; absent where it counts on the calendar */
  interval?: number;
  demanded_by?: Demand;
  lives: number;
  failures: number;
  /** parts at work now */
  running: number;
  /** replacements that say nothing of a life */
  left_out: number;
  refused?: Remark;
  /** the interval that costs least; absent beside a move: run to failure */
  best?: number;
  move?: IntervalMove;
  /** the best interval lies beyond what the lives have shown */
  is_held_back: boolean;
  is_worth_saying: boolean;
}

/** from the present interval; rates in money per unit of use, savings in money per year over all machines of the kind */
export interface IntervalMove {
  interval: number;
  rate_now: number;
  rate_then: number;
  /** expected; below 0: it costs */
  saving_per_year: number;
  /** with a chance of 5 % it is less */
  saving_5: number;
  saving_95: number;
  /** that it saves anything */
  chance: number;
}

export interface LifeStudy {
  now: string;
  currency: string;
  part: LifePart;
  costs: LifeCosts;
  places: LifePlace[];
  lives: SeenLife[];
  left_out: LeftOutLife[];
  /** Kaplan-Meier, Turnbull; empty without lives */
  survival_method: string;
  survival: SurvivalPoint[];
  fit?: LifeFit;
  cost_curve: CostPoint[];
  /** its expected cost per unit of use */
  run_to_failure?: number;
  best_range?: BestRange;
  asked?: IntervalMove;
}

/** what one replacement costs, piece by piece */
export interface LifeCosts {
  labour: number;
  /** of the machine for the work */
  standing: number;
  parts: number;
  /** of a planned replacement */
  set_up_share: number;
  /** of an unforeseen stop of its own */
  set_up: number;
  /** beside the work */
  failed_standing: number;
  failed_damage: number;
  planned: number;
  failed: number;
  /** nobody said how long a failure stands the machine */
  is_hours_assumed: boolean;
  is_parts_unknown: boolean;
  /** planned and failed are those that were asked for */
  is_asked: boolean;
}

export interface LifePlace {
  machine: string;
  /** of the machine's task */
  version: number;
  interval?: number;
  /** by how much the counter rises */
  per_year: number;
}

export interface SeenLife {
  machine: string;
  /** that ended it; absent: the part is at work */
  entry?: string;
  ended_at?: string;
  found?: AsFound;
  /** it was still good at that age */
  lower: number;
  /** it had failed by that age; absent: it was taken out good, or is at work */
  upper?: number;
}

export interface LeftOutLife {
  machine: string;
  entry: string;
  at: string;
  why: WhyLeftOut;
}

export type WhyLeftOut = 'age unknown' | 'not said' | 'no use' | 'no counter' | 'corrected';

export interface SurvivalPoint {
  age: number;
  survival: number;
  lower?: number;
  upper?: number;
}

export interface Ends {
  lower: number;
  /** absent: no end */
  upper?: number;
}

/** the likeliest Weibull distribution; ranges by likelihood ratio, 95 % */
export interface LifeFit {
  shape: number;
  scale: number;
  shape_range: Ends;
  scale_range: Ends;
  /** the age by which a tenth has failed */
  b10: number;
  b10_range: Ends;
  mean?: number;
  compared: OtherFit[];
  curve: SurvivalPoint[];
  cautions: Remark[];
}

export interface OtherFit {
  name: string;
  loglik: number;
  /** Akaike: less fits better */
  aic: number;
}

/** cost per unit of use at an interval, expected over all distributions that the lives allow, with its 90 % range */
export interface CostPoint {
  interval: number;
  rate: number;
  rate_5: number;
  rate_95: number;
}

/** the best interval with a chance of 5, 50 and 95 % at most; absent: run to failure */
export interface BestRange {
  best_5?: number;
  best_50?: number;
  best_95?: number;
}

export interface IntervalEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  interval: number;
  places: Array<{
    machine: string;
    /** that the person saw */
    version: number;
  }>;
  why: string;
  /** cost of a planned replacement as it was judged under */
  planned?: number;
  failed?: number;
  /** who allowed it and why, where safety, law or warranty demand the task and the interval becomes longer */
  despite?: string;
}

export interface IntervalMoves {
  entries: Entry[];
}

/** who wants the task done as it is, beside the shop; absent: nobody. Left out of a change, it stays as it is */
export type Demand = 'nobody' | 'safety' | 'law' | 'warranty';

/** what decides which interval costs least, in the shop's currency; what is left out is 0. Left out of a change, they stay as they are */
export interface PartCosts {
  /** of one doing: what is put in */
  parts?: number;
  /** that the machine stands when the part fails unforeseen, beside the work itself */
  failed_hours?: number;
  /** scrap, damage and rush of such a failure */
  failed_damage?: number;
  /** shape of the part's life when somebody moved its interval by its lives; planning takes it for how lateness grows */
  wear?: number;
}

export interface Signature {
  id: string;
  by: string;
  /** by the device's clock */
  at?: string;
  /** by the device's clock, at the moment of this sending: tells how far its clock is off */
  sent_at?: string;
}

export interface DoneEdit {
  id: string;
  by: string;
  /** when it was done, by the device's clock; now when absent */
  at?: string;
  /** by the device's clock, at the moment of this sending: tells how far its clock is off */
  sent_at?: string;
  as_found?: AsFound;
  note?: string;
}

export interface Entry {
  id: string;
  /** its place in the logbook, from 1 */
  ordinal: number;
  kind: EntryKind;
  machine: string;
  task?: string;
  by: string;
  /** when the server heard of it, by the server's clock */
  at: string;
  /** when it was entered, by the device's clock */
  device_at?: string;
  /** by how much the device's clock was ahead, where it was a minute or more; below zero: behind */
  device_off_s?: number;
  /** when it was entered, by the server's clock; the counters are those of that moment */
  happened_at: string;
  /** the entry in a sentence */
  says: string;
  note?: string;
  /** every counter's total at that moment */
  counters?: Record<string, number>;
  undo_until?: string;
  undone?: boolean;
  walk?: string;
  rhythm?: Rhythm;
  answers?: GivenAnswer[];
  /** the finding that it is about */
  finding?: string;
  photos?: PhotoName[];
  /** the entry that this one corrects */
  corrects?: string;
  corrected_by?: string[];
  /** why it could not count for what it was meant for: the lead is to look at it */
  stray?: string;
  stray_saying?: Saying;
  /** the stop that it is about */
  stop?: string;
  doing?: TaskDoing;
  told?: EntryTold;
}

/** what `says` says beside the entry's other fields, piece by piece, for whoever says it in another language */
export interface EntryTold {
  /** of the task or finding that it is about, as it was called then */
  title?: string;
  /** of the task that was changed */
  version?: number;
  display?: DisplayTold;
  /** how many checks the round had when somebody set out */
  checks?: number;
  what?: string;
  severity?: Severity;
  /** empty: nobody any more */
  owner?: string;
  /** a date; empty: none any more */
  due_on?: string;
  /** empty: none any more */
  settling_task?: string;
  unlinked?: Saying;
  done?: string;
  why?: string;
  /** the place in the logbook of the entry that it corrects */
  corrects_ordinal?: number;
  /** what is right */
  right?: string;
  points?: PointPlace[];
  /** points' numbers; empty: computed from their places */
  order?: number[];
  interval?: IntervalMoved;
  use?: UseTold;
  stop?: StopTold;
  stores?: StoresTold;
}

/** the stop as it was then, and what came of it */
export interface StopTold {
  on: string;
  shift: string;
  /** of a change, where it moved the stop */
  to_on?: string;
  to_shift?: string;
  /** the titles of all tasks, where they were said */
  tasks?: string[];
  /** of a closing: so many */
  done?: number;
  /** of so many tasks */
  of?: number;
}

/** what the person who did a task in a stop said of it */
export interface TaskDoing {
  as_found?: AsFound;
  /** hands on */
  minutes?: number;
  readings?: ReadValue[];
  quantity?: number;
  quantity_unit?: string;
}

export interface ReadValue {
  /** one of the task's readings */
  what: string;
  unit: string;
  value: number;
}

export interface DisplayTold {
  counter: string;
  display_h: number;
  verdict?: Saying;
  settled_as?: 'display replaced or reset' | 'misread' | 'display is right' | 'counted hours are right';
}

export interface UseTold {
  from: string;
  until?: string;
  factor: number;
}

export type EntryKind =
  | 'task done'
  | 'task added'
  | 'task changed'
  | 'task retired'
  | 'undone'
  | 'hours read'
  | 'hours settled'
  | 'round begun'
  | 'check answered'
  | 'others as they should be'
  | 'finding made'
  | 'finding changed'
  | 'finding settled'
  | 'finding reopened'
  | 'correction'
  | 'points moved'
  | 'walk changed'
  | 'use announced'
  | 'use withdrawn'
  | 'stop agreed'
  | 'stop changed'
  | 'stop withdrawn'
  | 'stop closed'
  | 'interval moved'
  | 'part kept'
  | 'part ended'
  | 'stores begun'
  | 'sheet read'
  | 'kit kept'
  | 'stock moved'
  | 'order placed'
  | 'order changed';

/** an interval that a person moved, with what it rested on then; money in `currency`, a year's sums over all machines of the kind */
export interface IntervalMoved {
  counter: string;
  unit: string;
  from: number;
  to: number;
  lives: number;
  failures: number;
  /** of the likeliest Weibull distribution; 0 where there was none */
  shape: number;
  scale: number;
  /** cost of a planned replacement */
  planned: number;
  /** cost of a replacement after a failure */
  failed: number;
  currency: string;
  /** expected; below 0: it costs */
  saving_per_year: number;
  /** with a chance of 5 % it is less */
  saving_5: number;
  saving_95: number;
  /** that it saves anything */
  chance: number;
  demanded_by?: Demand;
  /** why it was lengthened all the same */
  despite?: string;
}

export type Rhythm = 'before start-up' | 'shift' | 'day' | 'week';

export type CheckKind = 'look' | 'reading' | 'clean' | 'top up';

/** of a clean or top up: done, not done; a reading that was read has none */
export type Answer = 'as it should be' | 'not so';

/** not judged: nobody set a limit */
export type ReadingState = 'not judged' | 'as it should be' | 'warning' | 'action';

export type TurnState = 'ahead' | 'open' | 'walked' | 'half walked' | 'missed';

export type Severity = 'stop the machine' | 'before next shift' | 'at the next stop' | 'watch';

export interface PhotoName {
  id: string;
  /** 64 lower-case hexadecimal digits */
  sha256: string;
}

export interface Photo {
  id: string;
  sha256: string;
  bytes: number;
}

export interface Rounds {
  now: string;
  machines: MachineRounds[];
}

export interface MachineRounds {
  machine: string;
  name: string;
  kind: string;
  cell: string;
  points: Point[];
  rounds: Round[];
}

export interface Round {
  rhythm: Rhythm;
  /** in walking order */
  checks: RoundCheck[];
  /** the turn that runs, with what was answered in it; before start-up: today; null: none runs */
  now: Turn | null;
  /** turns of the last seven days that are over, the latest first, without their answers */
  past: Turn[];
}

export interface RoundCheck {
  /** the task's key, for a reading task/what */
  key: string;
  task: string;
  kind: CheckKind;
  title: string;
  point?: number;
  steps: string[];
  caution: string;
  reading?: TaskReading;
  /** of a top up */
  quantity_unit?: string;
  /** of a reading: the last ten, oldest first */
  last: CheckValue[];
}

export interface CheckValue {
  value: number;
  state: ReadingState;
  at: string;
  by: string;
}

export interface Turn {
  on: string;
  /** the shift's name; empty for days and weeks */
  shift: string;
  begins_at: string;
  ends_at: string;
  state: TurnState;
  walks: Walk[];
  /** what stands now: the latest of each check */
  answers: GivenAnswer[];
}

export interface Walk {
  walk: string;
  by: string;
  began_at: string;
  /** how many checks this walk answered */
  answered: number;
  /** how many checks the round had when it set out */
  of: number;
}

export interface GivenAnswer {
  check: string;
  task?: string;
  kind: CheckKind;
  title: string;
  answer?: Answer;
  value?: number;
  unit?: string;
  state?: ReadingState;
  /** the judgement in a sentence */
  says?: string;
  /** the limit that the value is beyond */
  limit?: number;
  quantity?: number;
  quantity_unit?: string;
  note?: string;
  /** in a turn */
  by?: string;
  /** in a turn */
  at?: string;
  /** in a turn */
  walk?: string;
}

export interface WalkEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** the keys of the round's checks as the device knows them: walked is what answers all of these */
  checks: string[];
}

export interface AnswersEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  walk: string;
  /** one press for all the checks that are named; each is "as it should be" */
  others: boolean;
  /** exactly one unless others */
  answers: CheckAnswer[];
  photos?: PhotoName[];
}

/** look: answer. Reading: value with unit; or answer: not so, where it cannot be read; or, by one press for the rest, answer: as it should be, not read. Clean: answer. Top up: answer, with the quantity filled in. */
export interface CheckAnswer {
  check: string;
  kind: CheckKind;
  /** as the person saw it; kept where the check is no longer there */
  title?: string;
  answer?: Answer;
  value?: number;
  /** the reading's; another unit is refused */
  unit?: string;
  quantity?: number;
  note?: string;
}

export interface Findings {
  findings: Finding[];
}

export interface Finding {
  id: string;
  machine: string;
  what: string;
  severity: Severity;
  state: 'open' | 'settled';
  owner: string | null;
  due_on: string | null;
  /** the task that will settle it */
  task: string | null;
  point?: number;
  /** the check at which it was found */
  check?: string;
  walk?: string;
  by: string;
  /** when it was found */
  at: string;
  photos: PhotoName[];
  settled_by?: string;
  settled_at?: string;
  /** what was done */
  done?: string;
}

export interface FindingHistory {
  finding: Finding;
  entries: Entry[];
}

export interface FindingEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  what: string;
  severity: Severity;
  owner?: string;
  due_on?: string;
  task?: string;
  point?: number;
  check?: string;
  walk?: string;
  photos?: PhotoName[];
}

export interface FindingChange {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  severity?: Severity;
  /** empty: nobody */
  owner?: string;
  /** a date; empty: none */
  due_on?: string;
  /** empty: none */
  task?: string;
  note?: string;
  photos?: PhotoName[];
}

export interface FindingSettle {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** what was done */
  done: string;
  photos?: PhotoName[];
}

export interface FindingReopen {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  why: string;
}

export type StopState = 'agreed' | 'closed' | 'withdrawn';

/** what a part was like when it was opened or replaced */
export type AsFound = 'good' | 'worn' | 'failed';

export interface Stops {
  stops: Stop[];
}

export interface Stop {
  id: string;
  machine: string;
  /** the plant's day on which the shift begins */
  on: string;
  /** its name; of a plant without shifts empty, the whole day */
  shift: string;
  /** of the shift */
  begins_at: string;
  ends_at: string;
  /** the strictest that its tasks need, powered at rest at least */
  energy: Energy;
  /** how long the machine stands with one person: set-up of the state and the hands-on work that is not done in production */
  minutes: number;
  state: StopState;
  /** counts its entries; a change names the version it saw */
  version: number;
  /** of an agreed stop as they are now, else as they were */
  tasks: StopTask[];
  note: string;
  /** who agreed it */
  by: string;
  at: string;
  closed?: StopClosed;
  withdrawn?: StopWithdrawn;
}

export interface StopClosed {
  by: string;
  at: string;
  began_at: string;
  ended_at: string;
  note: string;
}

export interface StopWithdrawn {
  by: string;
  at: string;
  why: string;
}

export interface StopTask {
  task: string;
  title: string;
  assembly: string;
  point?: number;
  work: WorkType;
  skill: Skill;
  energy: Energy;
  minutes: number;
  state: 'planned' | 'done' | 'left undone';
  as_found?: AsFound;
  done_by?: string;
  done_at?: string;
}

export interface StopEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  on: string;
  /** also on a day on which it does not work */
  shift: string;
  /** their keys */
  tasks: string[];
  note?: string;
}

export interface StopChange {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** that the person saw */
  version: number;
  on?: string;
  shift?: string;
  tasks?: string[];
  note?: string;
}

export interface StopWithdraw {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  why: string;
}

export interface StopClose {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  version: number;
  /** when the machine was given to maintenance, by the device's clock */
  began_at: string;
  /** when it was taken back, by the device's clock */
  ended_at: string;
  note?: string;
  /** whatever of the stop's tasks is not among them is left undone */
  done: StopDone[];
  used?: UsedParts;
}

export interface StopDone {
  /** of the task's own entry "task done" */
  id: string;
  task: string;
  /** whoever closes, where it is left out */
  by?: string;
  /** when it was done, by the device's clock; ended_at where it is left out */
  at?: string;
  as_found?: AsFound;
  note?: string;
  /** hands on */
  minutes?: number;
  readings?: ReadValue[];
  /** of a top up */
  quantity?: number;
}

export interface StopCard {
  stop: Stop;
  machine: CardMachine;
  order: CardOrder;
  /** in the order of work */
  tasks: Task[];
  /** the parts of all tasks, each once */
  kit: KitPart[];
  isolation: Isolation;
  /** open ones that a task of the stop will settle */
  findings: Finding[];
  /** of which it holds half of the machine's tasks or more */
  service?: CardService;
  /** of its kit, where the stores keep parts and the stop is agreed */
  readiness?: StopReadiness;
}

export interface CardService {
  key: string;
  title: string;
  title_de: string;
}

export interface CardMachine {
  key: string;
  name: string;
  kind: string;
  cell: string;
}

/** the order of work: fewest changes of energy state, then the shortest walk */
export interface CardOrder {
  state_changes: number;
  /** along the machine's outline, in sides of its plan */
  walk_sides: number;
  /** with one person: all work and all changes of state */
  minutes_one: number;
  /** with two people, where two may work at once */
  minutes_two: number;
  phases: CardPhase[];
}

export interface CardPhase {
  energy: Energy;
  /** by which the state is reached; none: the machine still produces */
  change: 'none' | 'shut down' | 'isolate' | 'release' | 'restart';
  works: CardWork[];
}

export interface CardWork {
  task: string;
  /** 1 or 2, of two */
  person: number;
  /** from the stop's beginning, with two people */
  begin_minutes: number;
  /** nobody else works at the machine meanwhile */
  alone: boolean;
  /** tasks of the stop that come before it */
  after: string[];
}

export interface KitPart {
  name: string;
  quantity: number;
  unit: string;
  tasks: string[];
  /** its number, where the stores keep it */
  part?: string;
  /** where it lies */
  place?: string;
}

/** what is known of the kind of machine; the builder's manual goes before it */
export interface Isolation {
  points: IsolationPoint[];
  stored: StoredEnergy[];
  /** in the order of 29 CFR 1910.147(d)(1)-(6) */
  steps: IsolationStep[];
  /** after the work, in the order of (e)(1)-(3) */
  way_back: IsolationStep[];
  cautions: Caution[];
}

export type EnergySource = 'electrical' | 'hydraulic' | 'air' | 'gravity' | 'spring' | 'heat' | 'coolant' | 'other';

export interface IsolationPoint {
  key: string;
  title: string;
  title_de: string;
  energy: EnergySource;
  where: string;
  where_de: string;
  how: string;
  how_de: string;
  /** of the machine's plan */
  point?: number;
  wait_minutes?: number;
}

export interface StoredEnergy {
  energy: EnergySource;
  title: string;
  title_de: string;
  release: string;
  release_de: string;
  verify: string;
  verify_de: string;
  wait_minutes?: number;
}

export interface IsolationStep {
  code:
    | 'prepare'
    | 'shut-down'
    | 'isolate'
    | 'lock'
    | 'release'
    | 'verify'
    | 'tools-out'
    | 'people-clear'
    | 'locks-off'
    | 'tell-people';
  text: string;
  text_de: string;
}

export interface Caution {
  text: string;
  text_de: string;
}

export interface Logbook {
  entries: Entry[];
  /** there are older ones that fit */
  more: boolean;
  /** how many entries wait for the lead */
  strays: number;
}

export interface Proof {
  entries: number;
  /** the newest entry's hash; noted elsewhere, it proves later that nothing before it was changed */
  head: string;
  breaks: ChainBreak[];
  /** photos that entries name and that are not here; they may still come from a phone, so they break nothing */
  photos_awaited: AwaitedPhoto[];
}

export interface AwaitedPhoto {
  /** its ordinal */
  entry: number;
  photo: string;
}

export interface ChainBreak {
  /** derived: a table that follows from the entries does not agree with them; photo: a photo is not what was kept, or not the one that the entry names */
  kind: 'altered' | 'moved' | 'missing' | 'put in' | 'unlinked' | 'head' | 'noted' | 'derived' | 'photo';
  /** its ordinal; 0: no single one */
  entry: number;
  says: string;
}

export interface CorrectionEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** what is right */
  says: string;
}

export interface PointsEdit {
  id: string;
  by: string;
  points: PointPlace[];
}

export interface PointPlace {
  number: number;
  x: number;
  y: number;
}

export interface WalkOrderEdit {
  id: string;
  by: string;
  /** point numbers in walking order, each once; points left out are put in where they lengthen the walk least */
  points: number[];
}

export interface Horizon {
  now: string;
  today: string;
  /** days on which the plant does not work */
  closed: ClosedDay[];
  shifts: PlantShift[];
  /** agreed ones, by when they begin */
  stops: Stop[];
  machines: HorizonMachine[];
}

/** one of the plant's shifts, by the clock on the wall; it ends on the next day where it ends at or before its beginning */
export interface PlantShift {
  name: string;
  /** 06:00 */
  begins: string;
  /** 14:00 */
  ends: string;
  /** of the day on which it begins, 1 Monday to 7 Sunday */
  weekdays: number[];
}

export interface ClosedDay {
  on: string;
  why: string;
}

export interface HorizonMachine {
  machine: string;
  name: string;
  kind: string;
  cell: string;
  tasks: HorizonTask[];
}

export interface HorizonTask {
  task: string;
  title: string;
  assembly: string;
  skill: Skill;
  energy: Energy;
  minutes: number;
  state: TaskState;
  forecast: Forecast;
}

/** the first day by whose end the interval is used up: the 80 % range from first to last, and the median; null: not within ten years */
export interface Forecast {
  /** the 10 % quantile */
  first: string | null;
  median: string | null;
  /** the 90 % quantile */
  last: string | null;
  /** when the tolerance too is used up */
  overdue_median: string | null;
  /** the trigger that most likely falls due first: a counter's key or a calendar interval */
  leads: string;
  /** why there is no forecast: no history of this counter yet */
  refused?: string;
  refusal?: Saying;
}

export interface Quantiles {
  p05: string | null;
  p10: string | null;
  p25: string | null;
  p50: string | null;
  p75: string | null;
  p90: string | null;
  p95: string | null;
}

export interface ForecastWorking {
  machine: string;
  task: string;
  quantiles: Quantiles;
  triggers: TriggerWorking[];
}

export interface TriggerWorking {
  counter?: string;
  calendar?: string;
  unit?: string;
  /** what is left at the beginning of today */
  left?: number;
  used_today?: number;
  quantiles: Quantiles;
  /** what the forecast rests on */
  basis: string;
  /** the last 400 days; unknown days are left out */
  history?: UsedDay[];
  /** the distribution: by the end of which day it is due with which chance */
  chances?: DueChance[];
  /** use of each weekday from Monday on, relative to the mean of all seven */
  weekdays?: number[];
  ahead?: LevelAhead[];
  /** over the known days */
  mean_per_day?: number;
  known_days?: number;
  unknown_days?: number;
  /** how long the level remembers; 0: it does not wander */
  memory_days?: number;
  /** 0 to 1: how much a yearly season is believed in */
  season_weight?: number;
  /** working days without use at the end of the history */
  idle_days?: number;
  /** an announced change of use */
  change_from?: string;
  change_factor?: number;
  /** machines of the same kind whose use helps out the short history */
  lent_by?: string[];
  /** why there is no forecast */
  refused?: string;
  refusal?: Saying;
  /** the first known day */
  first_on?: string;
  /** the last known day */
  last_on?: string;
  /** of a trigger by a reading, as are the following */
  reading?: string;
  of?: string;
  limit?: LimitKind;
  limit_at?: number;
  /** since the task was last done */
  last_value?: number;
  read_on?: string;
}

export interface UsedDay {
  date: string;
  used: number;
}

export interface DueChance {
  date: string;
  chance: number;
}

/** mean use per calendar day over the days ahead, with its standard deviation */
export interface LevelAhead {
  days: number;
  per_day: number;
  spread: number;
}

export interface Backtest {
  machine: string;
  counter: string;
  unit: string;
  /** days of history */
  days: number;
  /** how many of the latest forecasts have come to an end, at most 50 */
  last: number;
  /** how many of these came true inside the 80 % range */
  last_inside80: number;
  /** why there is no backtest */
  refused?: string;
  refusal?: Saying;
  rows: BacktestRow[];
}

export interface BacktestRow {
  /** how far ahead the due day lay, about; 0: all together */
  horizon_days: number;
  forecasts: number;
  /** how many came true inside the 80 % range */
  inside80: number;
  /** mean width of the 80 % range */
  width_days: number;
  /** pinball loss, days */
  loss: number;
  naive: NaiveLoss[];
}

export interface NaiveLoss {
  name: 'mean of 30 days' | 'last week again' | 'mean of 365 days';
  loss: number;
}

export interface StopTry {
  machine: string;
  /** today or later, at most 366 days ahead */
  on: string;
  /** also on a day on which it does not work */
  shift: string;
  /** their keys */
  tasks: string[];
  /** the agreed one that is being moved: it stands in nobody's way */
  stop?: string;
}

export interface StopEstimate {
  /** ISO 4217 */
  currency: string;
  cost: TryCost;
  /** money lost by doing tasks before they are due */
  early_loss: number;
  /** and after */
  late_loss: number;
  /** set-up and hands-on work, one person */
  standing_hours: number;
  /** 0: it fits */
  hours_over_shift: number;
  tasks: TriedTask[];
  people: TriedPeople[];
  /** the same part summed over the tasks */
  parts: Part[];
  visit?: TriedVisit;
  /** what stands against it */
  troubles: Sentence[];
}

/** of the outside service, where the shop says what its coming costs; nothing to pay where it comes in that shift anyway */
export interface TriedVisit {
  cost: number;
  /** of the way, in that shift */
  hours: number;
  /** for which it comes then too, by their names */
  machines: string[];
}

export interface TryCost {
  set_up: number;
  standing: number;
  premium: number;
  overtime: number;
  /** early and late losses */
  timing: number;
  /** of the outside service's visit that it opens */
  travel: number;
  total: number;
}

export interface TriedTask {
  task: string;
  /** 0 to 1: that it falls due before that day */
  chance_due_before: number;
  /** expected */
  early_days: number;
  /** expected */
  late_days: number;
  loss: number;
}

export interface TriedPeople {
  skill: Skill;
  wants_h: number;
  /** left after other agreed stops in that shift, overtime not counted */
  has_h: number;
  overtime_h: number;
}

export interface Sentence {
  text: string;
  saying: Saying;
}

export interface ProposalEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** all that falls due; or the services of the machines' kinds, spread over 52 weeks */
  what?: 'all' | 'services';
  /** 4 to 26, else 12; of services 52 */
  weeks?: number;
  seconds?: number;
  /** priced: agreed stops may be moved, at the price that the shop puts on it */
  moving?: 'fixed' | 'priced';
}

export interface IntervalChange {
  /** of the machines */
  kind: string;
  task: string;
  /** left out: the interval in days of the calendar */
  counter?: string;
  /** in the counter's unit, or days */
  interval: number;
}

export interface RehearsalEdit {
  changes: IntervalChange[];
  years?: number;
  /** the same seed is the same years */
  seed?: number;
}

/** one figure over the years */
export interface YearSpread {
  mean: number;
  /** standard error of the mean */
  se: number;
  /** 5 % of the years are below */
  q5: number;
  q50: number;
  q95: number;
}

export interface YearFigures {
  failures: YearSpread;
  stops: YearSpread;
  tasks_done: YearSpread;
  hands_on_hours: YearSpread;
  standing_hours: YearSpread;
  cost: YearSpread;
}

export interface Rehearsal {
  currency: string;
  /** that were played of each plan */
  years: number;
  seed: number;
  machines: number;
  /** that were played */
  tasks: number;
  /** tasks of them whose part can fail: its lives are known */
  parts: number;
  /** tasks left out because nothing is known of how their counter is used */
  without_use: number;
  present: YearFigures;
  changed: YearFigures;
  /** changed less present, year by year */
  difference: YearFigures;
  /** share of the years in which the changed plan cost less */
  cheaper: number;
  /** share of the years in which both cost the same */
  same_cost: number;
}

export interface AcceptEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** their keys */
  differences: string[];
}

export interface Accepted {
  /** as they are then */
  stops: Stop[];
  entries: Entry[];
}

/** what is not required is there when it is ready, says where it failed */
export interface Proposal {
  id: string;
  by: string;
  asked_at: string;
  state: 'running' | 'ready' | 'cancelled' | 'failed';
  /** 0 to 1: of the time */
  share: number;
  seconds: number;
  weeks: number;
  what: 'all' | 'services';
  currency?: string;
  cost?: PlanMoney;
  /** no plan costs less */
  bound?: number;
  /** (cost - bound) / cost */
  gap?: number;
  /** what is agreed, and every other task by the best of the rules */
  now?: PlanSum;
  /** what is proposed */
  then?: PlanSum;
  saving?: number;
  rule?: StopRule;
  rules?: RuleCost[];
  differences?: Difference[];
  /** tasks and services that cannot be placed */
  without_place?: WithoutPlace[];
  /** services that fall due after the 52 weeks and are not in them */
  later?: LaterService[];
  /** why it failed */
  says?: string;
}

/** each task on its due day; at the first stop all that is due within 14 days; a service day every four weeks */
export type StopRule = 'due day' | 'with next 14 days' | 'monthly service';

export interface RuleCost {
  rule: StopRule;
  cost: number;
  /** of that cost, by the proposal */
  saving_share: number;
}

export interface PlanMoney {
  /** set-ups */
  stops: number;
  lost_production: number;
  labour_premium: number;
  overtime: number;
  /** cycles ended early or late */
  timing: number;
  /** cycles open at the end of the weeks */
  end: number;
  /** agreed stops moved; absent where none is agreed */
  moving?: number;
  /** visits of the outside service; absent where the shop says nothing of them */
  travel?: number;
  total: number;
}

export interface PlanSum {
  cost: PlanMoney;
  stops: number;
  /** machine hours */
  standing_h: number;
}

export interface StopPlace {
  on: string;
  shift: string;
}

export interface Difference {
  key: string;
  kind: 'new' | 'moved' | 'changed' | 'dropped';
  machine: string;
  /** the agreed one */
  stop?: string;
  from?: StopPlace;
  /** where it is to be; absent: dropped */
  on?: string;
  shift?: string;
  energy: Energy;
  /** all that are in it then */
  tasks: string[];
  /** the service of the machine's kind that is done in it; its tasks of this time are among them */
  service?: string;
  /** that the machine stands */
  minutes: number;
  /** of its tasks' next executions; what later ones save is in the totals alone */
  saving: number;
  reasons: Sentence[];
  accepted: boolean;
}

/** one of task and service */
export interface WithoutPlace {
  machine: string;
  task?: string;
  service?: string;
  /** whether other work stands in its way or its limits themselves */
  text: string;
  saying: Saying;
  /** each alone would do, by the least that helps; empty: none was found or looked for */
  ways: Sentence[];
}

export interface LaterService {
  machine: string;
  service: string;
  due_on: string;
}

export interface UseChanges {
  changes: UseChange[];
}

export interface UseChange {
  id: string;
  /** null: every machine */
  machine: string | null;
  from: string;
  /** the last day; without it for good */
  until?: string;
  /** 1.5: half as much again */
  factor: number;
  why: string;
  by: string;
  at: string;
  withdrawn: boolean;
}

export interface UseChangeEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** left out: every machine */
  machine?: string;
  from: string;
  until?: string;
  factor: number;
  why: string;
}

export interface Today {
  now: string;
  today: string;
  items: TodayItem[];
}

/** one thing to decide. finding: open, severe or without owner. task: overdue, due, or due within seven days with the probability. counter: stopped counting. round: open or missed in the last turn. stop: agreed for today or tomorrow, or over and not closed. reading: beyond its action limit, or its trend (p up to 0.01) meets its next limit within 30 days with the probability, and no open finding speaks of it. stray: entries wait for the lead. interval: of a part, worth moving. order: to be placed before noon, with one supplier. kit: of an agreed stop within 14 days, short. shelf: the book says less than nothing. copies: none are made of the shop, the last one failed, or it is older than two days */
export interface TodayItem {
  kind:
    | 'finding'
    | 'task'
    | 'counter'
    | 'round'
    | 'stop'
    | 'reading'
    | 'stray'
    | 'interval'
    | 'order'
    | 'kit'
    | 'shelf'
    | 'copies';
  machine?: string;
  finding?: Finding;
  task?: Task;
  forecast?: Forecast;
  /** of an overdue task, as far as the counter's days tell */
  overdue_since?: string;
  feed?: Feed;
  silent_since?: string;
  rhythm?: Rhythm;
  turn?: Turn;
  stop?: Stop;
  reading?: ReadingLine;
  /** of stray entries */
  count?: number;
  part?: LifePart;
  order?: OrderProposal;
  /** until when an order of today counts as placed today */
  noon?: string;
  kit?: StopReadiness;
  shelf?: StoresPart;
  copies?: Copies;
}

/** how the copies of the shop stand (docs/operations/copies.md) */
export interface Copies {
  concern: 'not set up' | 'failed' | 'old';
  /** when the last good copy was made; absent where none is known */
  last_good_at?: string;
  /** of one that failed: why */
  says?: string;
}

/** when a reading meets a limit: the days by whose end it has with 10, 50 and 90 %, counted from the day on which it was last read; null: not within ten years, or beyond already */
export interface ReadingCrossing {
  limit: LimitKind;
  /** a value on this side is beyond */
  side: 'below' | 'above';
  at: number;
  /** the last value is beyond it */
  beyond: boolean;
  first: string | null;
  median: string | null;
  last: string | null;
}

export interface ReadingLine {
  task: string;
  /** of the task */
  title: string;
  assembly: string;
  point?: number;
  what: string;
  unit: string;
  warning?: Bounds;
  action?: Bounds;
  /** values, at most 200 */
  count: number;
  last?: CheckValue;
  direction?: ReadingDirection;
  /** Theil-Sen, in units a day */
  slope?: number;
  /** two-sided, that chance alone gives a trend as clear */
  p?: number;
  /** of the next limit to which the trend leads; absent without a trend */
  crossing?: ReadingCrossing;
  /** why there is no trend */
  refused?: string;
  refusal?: Saying;
}

export type ReadingDirection = 'rising' | 'falling' | 'none seen';

export interface Fill {
  at: string;
  by: string;
  entry: string;
  amount: number;
  /** of the use line's counter then */
  counter_total: number;
  /** amount an hour since the fill before; absent at the first */
  rate?: number;
}

/** what is used up an hour, by what was filled in */
export interface UseLine {
  task: string;
  title: string;
  assembly: string;
  unit: string;
  consumable: 'way oil' | 'hydraulic oil' | 'coolant' | 'spindle oil' | 'other';
  /** over whose hours it is used up */
  counter: string;
  /** the oldest first */
  fills: Fill[];
  /** amount an hour */
  over_all?: number;
  /** the last rate over the median of those before */
  last_against_rest?: number;
  /** one-sided */
  p?: number;
  direction?: 'less' | 'more' | 'none seen';
  /** what less or more means */
  says?: string;
  refused?: string;
  refusal?: Saying;
}

export interface Readings {
  now: string;
  machine: string;
  readings: ReadingLine[];
  uses: UseLine[];
}

export interface ReadingPoint {
  at: string;
  by: string;
  entry: string;
  /** in which it was read */
  stop?: string;
  value: number;
  state: ReadingState;
}

export type ChartRule = 'one beyond 3' | 'two of 3 beyond 2' | 'four of 5 beyond 1' | 'eight on a side';

export interface ReadingDay {
  date: string;
  /** the median of the day */
  value: number;
  /** rules that call at this day */
  out: ChartRule[];
}

/** individual values and moving ranges */
export interface ReadingChart {
  mean: number;
  mean_range: number;
  sigma: number;
  lower: number;
  upper: number;
}

export interface ReadingTrend {
  direction: ReadingDirection;
  /** Theil-Sen, in units a day */
  slope: number;
  /** 95 % interval */
  slope_low: number;
  slope_high: number;
  /** the line on the first day */
  begins_at: number;
  /** Mann-Kendall's S */
  s: number;
  /** two-sided */
  p: number;
  /** false: by the normal approximation */
  exact: boolean;
  /** first to last value, in units a day */
  drift: number;
  /** of the drifting value, in units per square root of a day */
  scatter: number;
}

export interface ReadingWorking {
  now: string;
  machine: string;
  reading: ReadingLine;
  /** the oldest first */
  points: ReadingPoint[];
  /** what counts: at most the latest 40 days on which it was read */
  days: ReadingDay[];
  chart?: ReadingChart;
  trend?: ReadingTrend;
  /** of every limit, from the lowest; empty where a trend is refused */
  crossings: ReadingCrossing[];
}

/** piece, set, l, kg, m or another word of the shop's; at most 20 characters */
export type PartUnit = string;

export interface SupplierReference {
  supplier: string;
  /** what that supplier calls the part */
  reference: string;
}

/** a part that the stores keep; its number is the shop's own */
export interface StoredPart {
  number: string;
  title: string;
  unit: PartUnit;
  /** where it lies */
  place?: string;
  /** what tasks call it, where that is not its title */
  names?: string[];
  /** from whom it is ordered */
  supplier?: string;
  references?: SupplierReference[];
  /** of one unit, in the shop's currency */
  price?: number;
  /** it is ordered in whole packs of so much; 1 where it is left out (0.1 for litres, kilograms and metres) */
  pack?: number;
  /** at least so much an order */
  minimum?: number;
  /** from order to shelf as the supplier says; 14 where it is left out */
  lead_days?: number;
  shelf_life_days?: number;
  /** numbers of parts that may be taken for it */
  substitutes?: string[];
  /** of a critical spare: the chance that it is there when it is asked for; the shop's usual one where it is left out */
  wanted?: number;
  /** that ask for it beside planned work, over all machines */
  failures_per_year?: number;
  /** each one is followed by its serial number */
  serial?: boolean;
  note?: string;
}

export interface StoredPartEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  /** that the person saw; left out for a new part */
  version?: number;
  title: string;
  unit: PartUnit;
  place?: string;
  names?: string[];
  supplier?: string;
  references?: SupplierReference[];
  price?: number;
  pack?: number;
  minimum?: number;
  lead_days?: number;
  shelf_life_days?: number;
  substitutes?: string[];
  wanted?: number;
  failures_per_year?: number;
  serial?: boolean;
  note?: string;
}

/** one week of a part; amounts in its unit; use from today up to the end of the week is use_..., all else is of the week alone or at its end */
export interface StockWeek {
  /** a Monday; of the first week today */
  from: string;
  /** what agreed stops take in the week */
  certain: number;
  /** what is taken in the week, expected */
  mean: number;
  /** up to the week's end, with a chance of 50 % no more */
  use_50: number;
  /** up to the week's end, with a chance of 95 % no more */
  use_95: number;
  /** of open orders, expected in the week */
  arriving: number;
  /** at the week's end, expected; below 0: it lacks so much */
  left: number;
  /** at the week's end, with a chance of 95 % so much or more */
  left_5: number;
}

export interface Stores {
  today: string;
  /** until when orders of today count as placed today */
  noon: string;
  /** of all that is there, by the parts' prices */
  value: number;
  parts: StoresPart[];
  suppliers: string[];
  /** names under which tasks ask for parts and to which no part answers */
  nameless: string[];
}

/** count it: the book says less than nothing; short: an agreed stop goes without, or will with the orders that are open; order today: before noon; order soon: within 14 days */
export type StockState = 'count it' | 'short' | 'order today' | 'order soon' | 'enough' | 'not used';

export interface StoresPart {
  part: StoredPart;
  version: number;
  state: StockState;
  /** 0 or more, what is past its shelf life left out */
  on_hand: number;
  /** 0, or below 0: so much more was taken than the book had; it is there until somebody counts */
  difference: number;
  /** there, but past its shelf life */
  too_old: number;
  /** for agreed stops */
  reserved: number;
  free: number;
  /** not delivered yet */
  on_order: number;
  /** most likely day of the next delivery */
  next_arrival?: string;
  /** the coming 12; empty where nothing is used */
  weeks: StockWeek[];
}

export interface PartStores {
  part: StoredPart;
  version: number;
  state: StockState;
  on_hand: number;
  difference: number;
  too_old: number;
  reserved: number;
  free: number;
  on_order: number;
  next_arrival?: string;
  /** the coming 26 */
  weeks: StockWeek[];
  /** the soonest first */
  needs: PartNeed[];
  /** the latest 200, the latest first */
  moves: StockMove[];
  /** what is there, the oldest first */
  batches: StockBatch[];
  serials: SerialPlace[];
  /** open ones */
  orders: Order[];
  lead_times: LeadTimes;
  proposal?: PartProposal;
  /** that take it */
  kits: TaskKit[];
  /** what the numbers rest on */
  assumes: Sentence[];
}

/** one thing that will ask for the part */
export interface PartNeed {
  machine?: string;
  task?: string;
  /** of the task */
  title?: string;
  /** the agreed stop that takes it */
  stop?: string;
  /** the yearly service that takes it beside its tasks */
  service?: string;
  quantity: number;
  /** of an agreed stop */
  on?: string;
  quantiles?: Quantiles;
  /** of what is done often, or of failures: so many times a year */
  per_year?: number;
}

export interface StockMove {
  entry: string;
  kind: MovementKind;
  /** what was moved; of a count what was found */
  quantity: number;
  /** of a count: by how much it changed the book */
  change?: number;
  /** what the book says is there after it, 0 or more */
  book: number;
  /** after it: 0, or below 0: so much more was taken than the book had, not counted since */
  difference: number;
  by: string;
  /** when it happened */
  at: string;
  why?: string;
  machine?: string;
  stop?: string;
  order?: string;
  serials?: string[];
  best_before?: string;
}

export type MovementKind = 'received' | 'taken' | 'returned' | 'counted' | 'scrapped';

export interface SerialPlace {
  serial: string;
  where: 'in the stores' | 'taken' | 'scrapped';
  /** into which it went */
  machine?: string;
  at: string;
}

export interface StockBatch {
  quantity: number;
  best_before?: string;
  too_old?: boolean;
}

/** days from order to shelf, learned from deliveries */
export interface LeadTimes {
  quoted_days: number;
  deliveries: Array<{
    placed_on: string;
    received_on: string;
    days: number;
  }>;
  days_50: number;
  days_90: number;
  /** how they were learned */
  says: Sentence;
}

/** what to order of a part, when, and why */
export interface PartProposal {
  part: string;
  title: string;
  unit: PartUnit;
  /** what the supplier calls it */
  reference?: string;
  /** whole packs */
  quantity: number;
  price?: number;
  /** the last day, before noon, on which the wanted chance is still reached */
  order_by: string;
  /** along: it joins an order to save one of its own */
  due: 'too late' | 'today' | 'soon' | 'along';
  /** the day of the first need that it is for */
  first_need?: string;
  /** the chance with which it is to be there */
  wanted?: number;
  /** that it is there for what comes before the next order */
  chance_if_ordered?: number;
  /** the same, not ordered */
  chance_if_not?: number;
  /** what the line costs, with its share of the order */
  ordering?: number;
  /** what it costs to have it lie until it is used, expected */
  holding?: number;
  /** what lacking it costs until it is there, expected */
  missing?: number;
  reasons: Sentence[];
}

export interface OrderProposal {
  /** empty: none is known */
  supplier: string;
  due: 'too late' | 'today' | 'soon';
  order_by?: string;
  /** of all lines that have a price */
  value?: number;
  lines: PartProposal[];
}

export interface OrderLine {
  part: string;
  title: string;
  unit: PartUnit;
  reference?: string;
  quantity: number;
  delivered: number;
  price?: number;
  /** each one is followed by its serial number */
  serial?: boolean;
}

export interface Order {
  id: string;
  supplier: string;
  /** ended: the rest does not come any more */
  state: 'open' | 'delivered' | 'ended';
  by: string;
  at: string;
  /** the shop's or the supplier's number of the order */
  reference?: string;
  /** the day that the supplier confirmed */
  confirmed_on?: string;
  expected_50: string;
  expected_90: string;
  lines: OrderLine[];
  /** why to ask the supplier: what is ordered is enough, but may come too late */
  chase?: Sentence[];
  note?: string;
  over_at?: string;
}

export interface Orders {
  today: string;
  noon: string;
  proposals: OrderProposal[];
  open: Order[];
  past: Order[];
}

export interface OrderLineEdit {
  part: string;
  quantity: number;
  price?: number;
}

export interface OrderEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  supplier: string;
  reference?: string;
  confirmed_on?: string;
  lines: OrderLineEdit[];
  note?: string;
}

export interface OrderChange {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  confirmed_on?: string;
  /** true: what has not come does not come any more */
  ended?: boolean;
  why?: string;
}

export interface MovedPart {
  part: string;
  /** above 0; of a count what was found */
  quantity: number;
  /** of a part that is followed by them: one for each */
  serials?: string[];
  /** of what was received; by its shelf life where it is left out */
  best_before?: string;
}

export interface MovementEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  kind: MovementKind;
  lines: MovedPart[];
  /** for which it was taken or from which it came back */
  stop?: string;
  machine?: string;
  task?: string;
  /** of which it is a delivery */
  order?: string;
  /** true: more came than was ordered, and that is right */
  more_than_ordered?: boolean;
  why?: string;
}

export interface KitLine {
  part: string;
  quantity: number;
}

/** for a task of a kind or of one machine, or for a yearly service of a kind beside what its tasks take */
export interface KitText {
  kind?: string;
  machine?: string;
  task?: string;
  service?: string;
  lines: KitLine[];
}

export interface Kits {
  /** those that somebody laid down */
  kits: KitText[];
  /** of every task that takes parts, once for each kind of machine; of one machine where it differs */
  tasks: TaskKit[];
  services: Array<{
    kind: string;
    service: string;
    title: string;
    title_de: string;
  }>;
}

export interface TaskKit {
  kind: string;
  machine?: string;
  task: string;
  title: string;
  lines: Array<{
    /** what the task calls it, or the part's title */
    name: string;
    quantity: number;
    unit: PartUnit;
    /** the stores' number; absent: no part answers to the name */
    part?: string;
  }>;
}

export interface KitEdit {
  id: string;
  by: string;
  at?: string;
  sent_at?: string;
  kind?: string;
  machine?: string;
  task?: string;
  service?: string;
  lines: KitLine[];
}

/** ready: every line is reserved or taken; coming: what is missing is on order and comes before the stop with a chance of 90 %; not known: no part answers to a name, all else is ready */
export type KitState = 'ready' | 'coming' | 'short' | 'not known';

export interface ReadyLine {
  part?: string;
  name: string;
  place?: string;
  /** that the stop needs */
  quantity: number;
  unit: PartUnit;
  state: 'taken' | 'reserved' | 'coming' | 'short' | 'not known';
  reserved: number;
  taken: number;
  /** of which parts, substitutes too; adds up to `reserved` */
  reserved_of: KitLine[];
  /** the same of what was taken; of its own part also what was taken beyond the line */
  taken_of: KitLine[];
  /** the part of which something is reserved for it */
  substitute?: string;
  /** of what comes: there with a chance of 90 % */
  expected?: string;
  /** that it is there when the stop begins */
  chance?: number;
  /** each one is followed by its serial number */
  serial?: boolean;
  tasks: string[];
}

export interface StopReadiness {
  stop: string;
  machine: string;
  on: string;
  shift: string;
  state: KitState;
  /** when its kit was taken the last time */
  taken_at?: string;
  lines: ReadyLine[];
}

export interface KitReadiness {
  stops: StopReadiness[];
}

export interface SheetColumn {
  heading: string;
  /** what it was taken for; absent: left out */
  field?:
    | 'number'
    | 'title'
    | 'unit'
    | 'place'
    | 'names'
    | 'supplier'
    | 'reference'
    | 'price'
    | 'pack'
    | 'minimum'
    | 'lead_days'
    | 'shelf_life_days'
    | 'substitutes'
    | 'wanted'
    | 'failures_per_year'
    | 'serial'
    | 'note'
    | 'on_hand';
}

export interface SheetRow {
  /** of the sheet */
  row: number;
  cells: string[];
  mistakes: Array<{
    heading: string;
    says: string;
    saying?: Saying;
  }>;
}

export interface SheetLook {
  /** what the file is: XLSX; CSV, UTF-8, semicolons, decimal comma */
  form: string;
  columns: SheetColumn[];
  rows: number;
  new: number;
  changed: number;
  alike: number;
  /** rows whose stock differs from the book */
  counted: number;
  mistaken: number;
  /** the first 200 */
  mistakes: SheetRow[];
  /** the first 5 rows */
  sample: SheetRow[];
}

/** what an entry about the stores says */
export interface StoresTold {
  kind?: MovementKind;
  supplier?: string;
  reference?: string;
  confirmed_on?: string;
  /** how many parts it is about */
  parts: number;
  /** the first 20 */
  lines: ToldLine[];
}

export interface ToldLine {
  part: string;
  title: string;
  quantity?: number;
  unit?: PartUnit;
}

/** what a stop really used of these parts, all of it; what was taken beyond it comes back, what was not taken before is taken; parts that are not named stay as they were taken */
export interface UsedParts {
  /** of the entry about the stores */
  id: string;
  lines: MovedPart[];
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
  saying?: Saying;
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
  /** the points' numbers in walking order */
  walk: number[];
  /** a person chose the order */
  walk_by_hand: boolean;
  /** open ones */
  findings: Finding[];
  tasks: Task[];
  retired: Task[];
  /** the latest 50 */
  entries: Entry[];
  hour_readings: HourReading[];
}

export const operations = {
  health: { method: 'GET', path: '/healthz', permission: 'open' },
  readiness: { method: 'GET', path: '/readyz', permission: 'watch' },
  metrics: { method: 'GET', path: '/metrics', permission: 'watch' },
  contract: { method: 'GET', path: '/api/openapi.json', permission: 'open' },
  shop: { method: 'GET', path: '/api/shop', permission: 'look' },
  floor: { method: 'GET', path: '/api/floor', permission: 'look' },
  groupFloor: { method: 'GET', path: '/api/group/floor', permission: 'look wide' },
  shipments: { method: 'GET', path: '/api/edge/shipments', permission: 'send' },
  sendPiece: { method: 'PUT', path: '/api/edge/shipments/{shipment}/pieces/{piece}', permission: 'send' },
  groupParts: { method: 'GET', path: '/api/group/lives', permission: 'look wide' },
  groupPart: { method: 'GET', path: '/api/group/lives/{kind}/{task}', permission: 'look wide' },
  groupVisits: { method: 'GET', path: '/api/group/visits', permission: 'look wide' },
  labels: { method: 'GET', path: '/api/labels.pdf', permission: 'look wide' },
  authority: { method: 'GET', path: '/authority.crt', permission: 'open' },
  join: { method: 'GET', path: '/api/join', permission: 'open' },
  makeJoinCode: { method: 'POST', path: '/api/join-codes', permission: 'admit' },
  devices: { method: 'GET', path: '/api/devices', permission: 'admit' },
  joinDevice: { method: 'POST', path: '/api/devices', permission: 'open' },
  endDevice: { method: 'POST', path: '/api/devices/{device}/end', permission: 'admit' },
  me: { method: 'GET', path: '/api/me', permission: 'open' },
  signIn: { method: 'POST', path: '/api/sign-in', permission: 'open' },
  signInByPin: { method: 'POST', path: '/api/sign-in/pin', permission: 'open' },
  lookAtLink: { method: 'POST', path: '/api/sign-in/link/look', permission: 'open' },
  signInByLink: { method: 'POST', path: '/api/sign-in/link', permission: 'open' },
  signOut: { method: 'POST', path: '/api/sign-out', permission: 'self' },
  ownSessions: { method: 'GET', path: '/api/me/sessions', permission: 'self' },
  endSession: { method: 'POST', path: '/api/me/sessions/{session}/end', permission: 'self' },
  endOtherSessions: { method: 'POST', path: '/api/me/sessions/end-others', permission: 'self' },
  changePassword: { method: 'POST', path: '/api/me/password', permission: 'self' },
  changePin: { method: 'POST', path: '/api/me/pin', permission: 'self' },
  beginSecondFactor: { method: 'POST', path: '/api/me/second-factor/begin', permission: 'self' },
  setSecondFactor: { method: 'POST', path: '/api/me/second-factor', permission: 'self' },
  endSecondFactor: { method: 'POST', path: '/api/me/second-factor/end', permission: 'self' },
  accounts: { method: 'GET', path: '/api/accounts', permission: 'admit' },
  makeAccount: { method: 'POST', path: '/api/accounts', permission: 'admit' },
  changeAccount: { method: 'POST', path: '/api/accounts/change', permission: 'admit' },
  endAccount: { method: 'POST', path: '/api/accounts/end', permission: 'admit' },
  ruleSecondFactor: { method: 'POST', path: '/api/accounts/second-factor', permission: 'admit' },
  makeLink: { method: 'POST', path: '/api/accounts/link', permission: 'admit' },
  endSessionsOf: { method: 'POST', path: '/api/accounts/end-sessions', permission: 'admit' },
  tokens: { method: 'GET', path: '/api/tokens', permission: 'admit' },
  makeToken: { method: 'POST', path: '/api/tokens', permission: 'admit' },
  endToken: { method: 'POST', path: '/api/tokens/{token}/end', permission: 'admit' },
  accessNotes: { method: 'GET', path: '/api/access-notes', permission: 'admit' },
  events: { method: 'GET', path: '/api/events', permission: 'look' },
  machine: { method: 'GET', path: '/api/machines/{machine}', permission: 'look' },
  days: { method: 'GET', path: '/api/machines/{machine}/days', permission: 'look' },
  addTask: { method: 'POST', path: '/api/machines/{machine}/tasks', permission: 'shape' },
  changeTask: { method: 'PUT', path: '/api/machines/{machine}/tasks/{task}', permission: 'shape' },
  markDone: { method: 'POST', path: '/api/machines/{machine}/tasks/{task}/done', permission: 'enter' },
  retireTask: { method: 'POST', path: '/api/machines/{machine}/tasks/{task}/retire', permission: 'shape' },
  undo: { method: 'POST', path: '/api/entries/{entry}/undo', permission: 'enter' },
  readHours: { method: 'POST', path: '/api/machines/{machine}/hour-readings', permission: 'enter' },
  settleReading: { method: 'POST', path: '/api/machines/{machine}/hour-readings/{reading}/settle', permission: 'work' },
  rounds: { method: 'GET', path: '/api/rounds', permission: 'look' },
  beginWalk: { method: 'POST', path: '/api/machines/{machine}/rounds/{rhythm}/walks', permission: 'enter' },
  answerChecks: { method: 'POST', path: '/api/machines/{machine}/rounds/{rhythm}/answers', permission: 'enter' },
  findings: { method: 'GET', path: '/api/findings', permission: 'look' },
  makeFinding: { method: 'POST', path: '/api/machines/{machine}/findings', permission: 'enter' },
  finding: { method: 'GET', path: '/api/findings/{finding}', permission: 'look' },
  changeFinding: { method: 'POST', path: '/api/findings/{finding}/change', permission: 'work' },
  settleFinding: { method: 'POST', path: '/api/findings/{finding}/settle', permission: 'work' },
  reopenFinding: { method: 'POST', path: '/api/findings/{finding}/reopen', permission: 'work' },
  stops: { method: 'GET', path: '/api/stops', permission: 'look' },
  stop: { method: 'GET', path: '/api/stops/{stop}', permission: 'look' },
  jobCard: { method: 'GET', path: '/api/stops/{stop}/card.pdf', permission: 'look' },
  agreeStop: { method: 'POST', path: '/api/machines/{machine}/stops', permission: 'agree' },
  changeStop: { method: 'POST', path: '/api/stops/{stop}/change', permission: 'agree' },
  withdrawStop: { method: 'POST', path: '/api/stops/{stop}/withdraw', permission: 'agree' },
  closeStop: { method: 'POST', path: '/api/stops/{stop}/close', permission: 'work' },
  photo: { method: 'GET', path: '/api/photos/{photo}', permission: 'look' },
  keepPhoto: { method: 'PUT', path: '/api/photos/{photo}', permission: 'enter' },
  logbook: { method: 'GET', path: '/api/logbook', permission: 'look wide' },
  logbookCsv: { method: 'GET', path: '/api/logbook.csv', permission: 'look wide' },
  proveLogbook: { method: 'GET', path: '/api/logbook/proof', permission: 'look wide' },
  correctEntry: { method: 'POST', path: '/api/entries/{entry}/correct', permission: 'enter' },
  movePoints: { method: 'POST', path: '/api/machines/{machine}/points', permission: 'shape' },
  changeWalk: { method: 'POST', path: '/api/machines/{machine}/walk', permission: 'shape' },
  month: { method: 'GET', path: '/api/months/{month}', permission: 'look wide' },
  monthPdf: { method: 'GET', path: '/api/months/{month}/report.pdf', permission: 'look wide' },
  monthXlsx: { method: 'GET', path: '/api/months/{month}/report.xlsx', permission: 'look wide' },
  horizon: { method: 'GET', path: '/api/horizon', permission: 'look wide' },
  forecast: { method: 'GET', path: '/api/machines/{machine}/tasks/{task}/forecast', permission: 'look' },
  readings: { method: 'GET', path: '/api/machines/{machine}/readings', permission: 'look' },
  reading: { method: 'GET', path: '/api/machines/{machine}/readings/{task}', permission: 'look' },
  backtest: { method: 'GET', path: '/api/machines/{machine}/backtest', permission: 'look wide' },
  parts: { method: 'GET', path: '/api/lives', permission: 'look wide' },
  part: { method: 'GET', path: '/api/lives/{kind}/{task}', permission: 'look wide' },
  moveInterval: { method: 'POST', path: '/api/lives/{kind}/{task}/interval', permission: 'shape' },
  useChanges: { method: 'GET', path: '/api/use-changes', permission: 'look wide' },
  announceUse: { method: 'POST', path: '/api/use-changes', permission: 'agree' },
  withdrawUse: { method: 'POST', path: '/api/use-changes/{change}/withdraw', permission: 'agree' },
  today: { method: 'GET', path: '/api/today', permission: 'look wide' },
  estimateStop: { method: 'POST', path: '/api/stops/estimate', permission: 'look wide' },
  propose: { method: 'POST', path: '/api/proposals', permission: 'shape' },
  rehearse: { method: 'POST', path: '/api/rehearsals', permission: 'look wide' },
  proposal: { method: 'GET', path: '/api/proposals/latest', permission: 'look wide' },
  cancelProposal: { method: 'POST', path: '/api/proposals/{proposal}/cancel', permission: 'shape' },
  acceptProposal: { method: 'POST', path: '/api/proposals/{proposal}/accept', permission: 'shape' },
  undoProposal: { method: 'POST', path: '/api/proposals/{proposal}/undo', permission: 'shape' },
  stores: { method: 'GET', path: '/api/stores', permission: 'look wide' },
  storedPart: { method: 'GET', path: '/api/stores/parts/{part}', permission: 'look wide' },
  keepPart: { method: 'PUT', path: '/api/stores/parts/{part}', permission: 'shape' },
  endPart: { method: 'POST', path: '/api/stores/parts/{part}/end', permission: 'shape' },
  beginStores: { method: 'POST', path: '/api/stores/tasks-parts', permission: 'shape' },
  kits: { method: 'GET', path: '/api/stores/kits', permission: 'look wide' },
  keepKit: { method: 'PUT', path: '/api/stores/kits', permission: 'shape' },
  moveStock: { method: 'POST', path: '/api/stores/movements', permission: 'stock' },
  kitReadiness: { method: 'GET', path: '/api/stores/readiness', permission: 'look wide' },
  orders: { method: 'GET', path: '/api/stores/orders', permission: 'look wide' },
  placeOrder: { method: 'POST', path: '/api/stores/orders', permission: 'shape' },
  changeOrder: { method: 'POST', path: '/api/stores/orders/{order}/change', permission: 'shape' },
  orderListCsv: { method: 'GET', path: '/api/stores/orders/list.csv', permission: 'look wide' },
  orderListXlsx: { method: 'GET', path: '/api/stores/orders/list.xlsx', permission: 'look wide' },
  orderListPdf: { method: 'GET', path: '/api/stores/orders/list.pdf', permission: 'look wide' },
  orderListMail: { method: 'GET', path: '/api/stores/orders/list.txt', permission: 'look wide' },
  shelfLabels: { method: 'GET', path: '/api/stores/labels.pdf', permission: 'look wide' },
  storesCsv: { method: 'GET', path: '/api/stores/sheet.csv', permission: 'look wide' },
  storesXlsx: { method: 'GET', path: '/api/stores/sheet.xlsx', permission: 'look wide' },
  lookAtSheet: { method: 'POST', path: '/api/stores/sheet/look', permission: 'shape' },
  sheetMistakes: { method: 'POST', path: '/api/stores/sheet/mistakes.csv', permission: 'shape' },
  readSheet: { method: 'POST', path: '/api/stores/sheet', permission: 'shape' },
} as const;
