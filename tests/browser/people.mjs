// Who the tests are: people of the shop who have signed in, each by a one-time link made on the server's computer, and a
// program with a token for what tests ask and enter beside the pages. The invented shop knows neither; there everybody is
// its lead.
import { spawnSync } from 'node:child_process';
import { program } from './server.mjs';

export const PASSWORD = 'seven quiet lathes hum';

/** Calls the program on a data folder, and gives what it prints as JSON. */
function call(data, words) {
  const { status, stdout, stderr } = spawnSync(program, [...words, '--data', data, '--json'], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`hourwright ${words.join(' ')}: ${stdout}${stderr}`);
  return JSON.parse(stdout);
}

/** The people of every server by the addresses under which pages reach it. */
const known = new Map();
export const peopleAt = (url) => known.get(new URL(url).origin);

export class People {
  /** @param url the address of this computer @param data the server's folder; undefined: the invented shop */
  constructor(url, data) {
    this.url = url;
    this.contexts = new Map();
    this.serve(data);
    this.reachedAt(url);
  }

  /** Pages at this address are of the same server. */
  reachedAt(url) {
    known.set(new URL(url).origin, this);
  }

  /** The server has begun with this folder: nobody has signed in there yet. */
  serve(data) {
    this.data = data;
    this.sessions = new Map();
    this.token = null;
    this.names = null;
  }

  /** What requests of tests carry. */
  headers() {
    if (this.data === undefined) return {};
    this.token ??= call(this.data, ['token', 'create', '--role', 'lead', '--expires', '1']).secret;
    return { authorization: `Bearer ${this.token}` };
  }

  /** The one-time secret of a new account, or of one that is there. */
  link(name, role = 'lead', more = []) {
    return call(this.data, ['admin', 'create', name, '--role', role, ...more]).secret;
  }

  async post(path, body) {
    const headers = { 'content-type': 'application/json' };
    const response = await fetch(this.url + path, { method: 'POST', headers, body: JSON.stringify(body) });
    if (!response.ok) throw new Error(`POST ${path}: ${response.status} ${await response.text()}`);
    return response;
  }

  /** Makes the account and signs it in: { name, value } of the session's cookie. */
  async enter(name, role, secrets = { password: PASSWORD }, more = []) {
    const response = await this.post('/api/sign-in/link', { secret: this.link(name, role, more), ...secrets });
    const [, cookie, value] = /^([^=]+)=([^;]+)/.exec(response.headers.getSetCookie()[0]);
    return { name: cookie, value };
  }

  cookieOf(name) {
    if (!this.sessions.has(name)) this.sessions.set(name, this.enter(name, 'lead'));
    return this.sessions.get(name);
  }

  /** The shop's people, in its order. */
  async all() {
    this.names ??= fetch(`${this.url}/api/shop`, { headers: this.headers() })
      .then((response) => response.json())
      .then((shop) => shop.people.map((person) => person.name));
    return this.names;
  }

  /** From now on the context's pages at `url` are that person's; the first of the shop's where none is named. */
  async signIn(context, url, name) {
    const who = name ?? (await this.all())[0];
    if (this.data !== undefined) {
      const cookie = await this.cookieOf(who);
      await context.addCookies([{ ...cookie, url, httpOnly: true, sameSite: 'Strict' }]);
    }
    if (!this.contexts.has(context)) context.on('close', () => this.contexts.delete(context));
    this.contexts.set(context, { url, name: who });
    return who;
  }

  /** After the server began anew with another folder: whoever had signed in does so again. */
  async renew() {
    for (const [context, { url, name }] of this.contexts) await this.signIn(context, url, name);
  }
}

/** Makes the page that person's, and gives the name. */
export async function choosePerson(page, name) {
  const url = page.signedInAt;
  const people = peopleAt(url);
  const { name: before } = people.contexts.get(page.context()) ?? {};
  const chosen = await people.signIn(page.context(), url, name ?? before);
  const isOpen = page.url().startsWith(url);
  if (chosen !== before && isOpen) await page.reload();
  if (isOpen) await page.locator('#me-top', { hasText: chosen }).waitFor();
  return chosen;
}
