// Starts the server that the tests drive: the real one where it is built (build/hourwright demo), else the app's
// invented shop. HOURWRIGHT_PROGRAM names another program, HOURWRIGHT_FAKE=1 wants the invented shop anyway.
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { fileURLToPath } from 'node:url';
import { People } from './people.mjs';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const FAKE = `${ROOT}app/fake/serve.mjs`;
const START_MS_MAX = 240_000;

export const program = process.env.HOURWRIGHT_PROGRAM ?? `${ROOT}build/hourwright`;
export const isReal = process.env.HOURWRIGHT_FAKE !== '1' && existsSync(program);

export async function freePort() {
  const probe = createServer().listen(0, '127.0.0.1');
  await once(probe, 'listening');
  const { port } = probe.address();
  probe.close();
  await once(probe, 'close');
  return port;
}

function commandFor(address) {
  return isReal ? [program, ['demo', '--listen', address]] : [process.execPath, [FAKE, '--listen', address]];
}

async function answers(url) {
  try {
    return (await fetch(`${url}/healthz`)).ok;
  } catch {
    return false;
  }
}

/** One server at one address; stop() kills it as a power cut would, start() brings it back at the same address. */
export class Server {
  static async open() {
    const server = new Server(await freePort());
    await server.start();
    return server;
  }

  constructor(port) {
    this.people = null;
    this.address = `127.0.0.1:${port}`;
    this.url = `http://${this.address}`;
    this.says = '';
  }

  async start() {
    this.says = '';
    const [command, words] = commandFor(this.address);
    this.child = spawn(command, words, { cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'] });
    for (const stream of [this.child.stdout, this.child.stderr]) stream.on('data', (text) => (this.says += text));
    const end = Date.now() + START_MS_MAX;
    while (!(await answers(this.url))) {
      if (this.hasEnded() || Date.now() > end) throw new Error(`the server did not start:\n${this.says}`);
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    await this.knowPeople();
  }

  /** A demo that begins anew has another folder, in which nobody has signed in yet. */
  async knowPeople() {
    // It says where when it listens; that may be read a moment after the first answer.
    while (isReal && !/^Data folder: .+$/m.test(this.says)) await new Promise((resolve) => setTimeout(resolve, 20));
    const data = isReal ? [...this.says.matchAll(/^Data folder: (.+)$/gm)].at(-1)?.[1] : undefined;
    if (this.people === null) this.people = new People(this.url, data);
    else this.people.serve(data);
    await this.people.renew();
  }

  hasEnded() {
    return this.child.exitCode !== null || this.child.signalCode !== null;
  }

  async stop() {
    if (this.hasEnded()) return;
    this.child.kill('SIGKILL');
    await once(this.child, 'exit');
  }

  /** As a program with a token asks. */
  ask(path) {
    return fetch(this.url + path, { headers: this.people.headers() });
  }

  async get(path) {
    const response = await this.ask(path);
    if (!response.ok) throw new Error(`GET ${path}: ${response.status} ${await response.text()}`);
    return response.json();
  }

  async send(method, path, body) {
    const headers = { 'content-type': 'application/json', ...this.people.headers() };
    const response = await fetch(this.url + path, { method, headers, body: JSON.stringify(body) });
    return { status: response.status, value: await response.json() };
  }
}
