// Which builds of the app the device keeps. A build's files lie in a cache of its own that is called
// "hourwright build <n> <id>": n counts the builds that came to this device, the id is the digest of the build's files.

const PREFIX = 'hourwright build ';
const KEPT = 2;

export interface Build {
  /** Digest of all files. */
  id: string;
  /** Addresses: "/", "/assets/index-4f2a.js". */
  files: string[];
}

function numberOf(name: string): number {
  return Number(name.slice(PREFIX.length).split(' ')[0]);
}

const isBuild = (name: string) => name.startsWith(PREFIX);

/** The cache of a build among those that are there, or a new name for it, after all others. */
export function cacheNameFor(id: string, names: readonly string[]): string {
  const builds = names.filter(isBuild);
  const there = builds.find((name) => name.endsWith(` ${id}`));
  return there ?? `${PREFIX}${Math.max(0, ...builds.map(numberOf)) + 1} ${id}`;
}

/** The newest first. */
export function byAge(names: readonly string[]): string[] {
  return names.filter(isBuild).toSorted((a, b) => numberOf(b) - numberOf(a));
}

/** What goes when this build takes over: all but it and the newest of the others. */
export function namesToDrop(id: string, names: readonly string[]): string[] {
  const own = cacheNameFor(id, names);
  return byAge(names)
    .filter((name) => name !== own)
    .slice(KEPT - 1);
}

export type Answer = 'page' | 'file' | 'network';

/** Who answers a request: nothing of the API and nothing that changes anything is ever kept; a navigation whose last
 * part has no point is one of the app's pages, as the server has it too. */
export function answerFor(
  { method, mode, url }: { method: string; mode: string; url: string },
  origin: string,
): Answer {
  const { origin: from, pathname } = new URL(url);
  const isServers = /^\/(api|healthz|readyz|metrics)(\/|$)/.test(pathname);
  if (method !== 'GET' || from !== origin || isServers) return 'network';
  const isPage = !(pathname.split('/').at(-1) ?? '').includes('.');
  if (mode === 'navigate') return isPage ? 'page' : 'network';
  return isPage ? 'network' : 'file';
}
