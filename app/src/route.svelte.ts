// Which page the address means, by the browser's history. Links are plain links; a click on one that leads to a page of
// ours changes the page without loading the app again.

import { tick } from 'svelte';
import type { Rhythm } from './wire/contract';

export type Page =
  | { name: 'floor' }
  | { name: 'rounds' }
  | { name: 'round'; machine: string; rhythm: Rhythm }
  | { name: 'unsent' }
  | { name: 'machine'; machine: string }
  | { name: 'new task'; machine: string }
  | { name: 'change task'; machine: string; task: string }
  | { name: 'change plan'; machine: string }
  | { name: 'findings' }
  | { name: 'new finding' }
  | { name: 'finding'; finding: string }
  | { name: 'logbook' }
  | { name: 'month' }
  | { name: 'labels' }
  | { name: 'scan' }
  | { name: 'join' }
  | { name: 'enter' }
  | { name: 'me' }
  | { name: 'access' }
  | { name: 'horizon' }
  | { name: 'use changes' }
  | { name: 'today' }
  | { name: 'stops' }
  | { name: 'visits' }
  | { name: 'stop'; stop: string }
  | { name: 'lives' }
  | { name: 'part'; kind: string; task: string }
  | { name: 'stores' }
  | { name: 'stored part'; part: string }
  | { name: 'kits' }
  | { name: 'parts sheet' }
  | { name: 'task date'; machine: string; task: string }
  | { name: 'reading'; machine: string; task: string }
  | { name: 'not there' };

/** Pages that one word names. */
const PLAIN: Readonly<Record<string, Page>> = {
  findings: { name: 'findings' },
  'new-finding': { name: 'new finding' },
  logbook: { name: 'logbook' },
  month: { name: 'month' },
  labels: { name: 'labels' },
  scan: { name: 'scan' },
  join: { name: 'join' },
  enter: { name: 'enter' },
  me: { name: 'me' },
  access: { name: 'access' },
  rounds: { name: 'rounds' },
  unsent: { name: 'unsent' },
  horizon: { name: 'horizon' },
  'use-changes': { name: 'use changes' },
  today: { name: 'today' },
  stops: { name: 'stops' },
  visits: { name: 'visits' },
  lives: { name: 'lives' },
  stores: { name: 'stores' },
  kits: { name: 'kits' },
  'parts-sheet': { name: 'parts sheet' },
};
/** As they stand in an address. */
const RHYTHMS: Readonly<Record<string, Rhythm>> = {
  'before-start-up': 'before start-up',
  shift: 'shift',
  day: 'day',
  week: 'week',
};

function pageOfMachine(machine: string, part: string | undefined, named: string | undefined): Page {
  if (part === undefined) return { name: 'machine', machine };
  if (part === 'new-task' && named === undefined) return { name: 'new task', machine };
  if (part === 'change-plan' && named === undefined) return { name: 'change plan', machine };
  if (part === 'change-task' && named !== undefined) return { name: 'change task', machine, task: named };
  if (part === 'task-date' && named !== undefined) return { name: 'task date', machine, task: named };
  if (part === 'reading' && named !== undefined) return { name: 'reading', machine, task: named };
  const rhythm = part === 'round' ? RHYTHMS[named ?? ''] : undefined;
  return rhythm ? { name: 'round', machine, rhythm } : { name: 'not there' };
}

/** The page of a path: "/machine/m01" -> machine m01. */
export function pageOf(path: string): Page {
  const [first, second, third, fourth, ...more] = path.split('/').filter(Boolean).map(decodeURIComponent);
  if (first === undefined) return { name: 'floor' };
  if (more.length > 0) return { name: 'not there' };
  if (first === 'machine' && second !== undefined) return pageOfMachine(second, third, fourth);
  if (first === 'finding' && second !== undefined && third === undefined) return { name: 'finding', finding: second };
  if (first === 'stop' && second !== undefined && third === undefined) return { name: 'stop', stop: second };
  if (first === 'lives' && second !== undefined && third !== undefined && fourth === undefined)
    return { name: 'part', kind: second, task: third };
  if (first === 'stores' && second !== undefined && third === undefined) return { name: 'stored part', part: second };
  return (second === undefined ? PLAIN[first] : undefined) ?? { name: 'not there' };
}

export const FLOOR_ADDRESS = '/';
export const ROUNDS_ADDRESS = '/rounds';
export const UNSENT_ADDRESS = '/unsent';
export const SCAN_ADDRESS = '/scan';
export const JOIN_ADDRESS = '/join';
export const ME_ADDRESS = '/me';
export const ACCESS_ADDRESS = '/access';
export const machineAddress = (machine: string) => `/machine/${encodeURIComponent(machine)}`;
export const taskAddress = (machine: string, task: string) =>
  `${machineAddress(machine)}?task=${encodeURIComponent(task)}`;
export const roundAddress = (machine: string, rhythm: Rhythm) =>
  `${machineAddress(machine)}/round/${rhythm.replaceAll(' ', '-')}`;
export const newTaskAddress = (machine: string) => `${machineAddress(machine)}/new-task`;
export const changeTaskAddress = (machine: string, task: string) =>
  `${machineAddress(machine)}/change-task/${encodeURIComponent(task)}`;
export const HORIZON_ADDRESS = '/horizon';
/** The Horizon as a list of what is most likely due by a local date. */
export const horizonUntil = (by: string) => withQuery(HORIZON_ADDRESS, { as: 'list', by });
export const USE_CHANGES_ADDRESS = '/use-changes';
export const TODAY_ADDRESS = '/today';
/** Of a group's site: visits of the outside service to its plants. */
export const VISITS_ADDRESS = '/visits';
/** The working of a task's forecast date. */
export const taskDateAddress = (machine: string, task: string) =>
  `${machineAddress(machine)}/task-date/${encodeURIComponent(task)}`;
export const LIVES_ADDRESS = '/lives';
/** What the lives of a part say: the one that the task replaces on machines of that kind. */
export const partAddress = (kind: string, task: string) =>
  `${LIVES_ADDRESS}/${encodeURIComponent(kind)}/${encodeURIComponent(task)}`;
/** @param filters of the parts: find, state, supplier; order: the supplier whose order is looked at */
export const storesAddress = (filters: Record<string, string> = {}) => withQuery('/stores', filters);
export const KITS_ADDRESS = '/kits';
export const SHEET_ADDRESS = '/parts-sheet';
/** A part in the stores, as its shelf's label leads there. */
export const storedPartAddress = (part: string) => `/stores/${encodeURIComponent(part)}`;
/** The same, about to be counted. */
export const countAddress = (part: string) => withQuery(storedPartAddress(part), { count: 'yes' });
/** @param query supplier or order; language, paper */
export const orderListAddress = (format: 'csv' | 'xlsx' | 'pdf', query: Record<string, string>) =>
  withQuery(`/api/stores/orders/list.${format}`, query);
export const storesSheetAddress = (format: 'csv' | 'xlsx', language: string) =>
  withQuery(`/api/stores/sheet.${format}`, { language });
/** How one reading goes: which of the task's readings is in the query. */
export const readingAddress = (machine: string, task: string, what: string) =>
  withQuery(`${machineAddress(machine)}/reading/${encodeURIComponent(task)}`, { what });
export const changePlanAddress = (machine: string) => `${machineAddress(machine)}/change-plan`;
export const findingAddress = (finding: string) => `/finding/${encodeURIComponent(finding)}`;
/** @param about where it was found: machine, task, point, check; what: the words it begins with */
export const newFindingAddress = (about: Record<string, string> = {}) => withQuery('/new-finding', about);
export const stopAddress = (stop: string) => `/stop/${encodeURIComponent(stop)}`;
/** @param filters of the stops: machine, state */
export const stopsAddress = (filters: Record<string, string> = {}) => withQuery('/stops', filters);
/** The Horizon, about to plan a stop of a machine; with a task that it is to hold. */
export const planAddress = (machine: string, task = '') => withQuery(HORIZON_ADDRESS, { plan: machine, task });
/** The Horizon, about to move or change an agreed stop. */
export const moveAddress = (stop: string) => withQuery(HORIZON_ADDRESS, { move: stop });
/** @param filters of a month: month (2026-11), machine, kind */
export const monthAddress = (filters: Record<string, string> = {}) => withQuery('/month', filters);
/** The month as a file. */
export const monthFileAddress = (month: string, file: 'report.pdf' | 'report.xlsx', query: Record<string, string>) =>
  withQuery(`/api/months/${encodeURIComponent(month)}/${file}`, query);
export const PROPOSE_ADDRESS = `${HORIZON_ADDRESS}?propose=yes`;
/** The job card as a file. */
export const cardAddress = (stop: string, paper: 'a4' | 'letter', language: string) =>
  withQuery(`/api/stops/${encodeURIComponent(stop)}/card.pdf`, { paper, language });
/** @param of shelves: labels of the stores' shelves */
export const labelsAddress = (machine = '', of: '' | 'shelves' = '', part = '') =>
  withQuery('/labels', { machines: machine, of, parts: part });
/** @param filters of the open findings: machine, owner */
export const findingsAddress = (filters: Record<string, string> = {}) => withQuery('/findings', filters);
/** @param filters of the logbook: machine, kind ... */
export const logbookAddress = (filters: Record<string, string> = {}) => withQuery('/logbook', filters);

/** A page of a plant's own site, from the group's: north.shops.example beside shops.example. An address of this computer
 * has no names below it, as localhost has. */
export function plantAddress(plant: string, page: string): string {
  const { protocol, hostname, port } = window.location;
  const group = hostname === '127.0.0.1' || hostname === '[::1]' ? 'localhost' : hostname;
  return `${protocol}//${plant}.${group}${port === '' ? '' : `:${port}`}${page}`;
}

function withQuery(path: string, values: Record<string, string>): string {
  const query = new URLSearchParams(Object.entries(values).filter(([, value]) => value !== ''));
  return query.size === 0 ? path : `${path}?${query}`;
}

class Route {
  private url = $state.raw(new URL(window.location.href));
  private hasMoved = false;
  readonly page = $derived(pageOf(this.url.pathname));
  readonly query = $derived(this.url.searchParams);

  start(): void {
    window.addEventListener('popstate', () => (this.url = new URL(window.location.href)));
    document.addEventListener('click', (event) => this.followInside(event));
  }

  async go(address: string): Promise<void> {
    history.pushState(null, '', address);
    this.url = new URL(window.location.href);
    window.scrollTo(0, 0);
    this.hasMoved = true;
    await this.focusHeading();
  }

  /** After a link was followed the page's heading has the focus; the page that was opened first leaves it as it is. */
  async focusHeading(): Promise<void> {
    await tick();
    if (this.hasMoved) document.querySelector<HTMLElement>('h1')?.focus({ preventScroll: true });
  }

  /** Puts what is chosen on a page into its address, so that Back and a copied address find it again. */
  keep(values: Record<string, string>): void {
    const url = new URL(window.location.href);
    for (const [name, value] of Object.entries(values)) {
      if (value === '') url.searchParams.delete(name);
      else url.searchParams.set(name, value);
    }
    history.replaceState(null, '', url);
    this.url = url;
  }

  private followInside(event: MouseEvent): void {
    const link = (event.target as Element).closest('a');
    const asUsual = event.defaultPrevented || event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey;
    if (!link || asUsual || link.target !== '' || link.origin !== window.location.origin) return;
    if (link.hasAttribute('download') || link.pathname.startsWith('/api/')) return;
    if (link.hash !== '' && link.pathname === window.location.pathname) return;
    event.preventDefault();
    void this.go(link.pathname + link.search);
  }
}

export const route = new Route();
