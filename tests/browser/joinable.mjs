// A server that phones can join: a small shop in a folder of its own, a plain and an encrypted line, a certificate of its
// own authority; and browsers that are somebody else's: they know the server by its name in the network, and trust its
// authority or do not.
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { FLAGS } from './chromium.mjs';
import { People } from './people.mjs';
import { freePort, program, ROOT } from './server.mjs';

export const NAME = 'shop.example';
const SHOP = `format = "hourwright-shop-1"
cell = [ { key = "c", title = "Cell" } ]
[plant]
name = "Small plant"
zone = "Europe/Berlin"
[[person]]
name = "Ada Brandt"
skill = "technician"
[[person]]
name = "Jonas Falk"
skill = "operator"
[[machine]]
key = "m1"
name = "Lathe 1"
kind = "lathe"
cell = "c"
[[machine]]
key = "m2"
name = "Lathe 2"
kind = "lathe"
cell = "c"
`;

function call(command, words) {
  const { status, stdout, stderr } = spawnSync(command, words, { cwd: ROOT, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${words.join(' ')}: ${stdout}${stderr}`);
  return stdout;
}

export class JoinableServer {
  static async open({ encrypted = true } = {}) {
    const server = new JoinableServer();
    server.folder = mkdtempSync(join(tmpdir(), 'hw_join_'));
    server.data = join(server.folder, 'data');
    writeFileSync(join(server.folder, 'shop.toml'), SHOP);
    call(program, ['found', '--data', server.data, '--shop', join(server.folder, 'shop.toml')]);
    if (encrypted) call(program, ['tls', 'init', '--data', server.data, '--name', NAME]);
    await server.serve(encrypted);
    return server;
  }

  async serve(encrypted) {
    const port = await freePort();
    const tlsPort = await freePort();
    this.ownUrl = `http://127.0.0.1:${port}`;
    this.plainUrl = `http://${NAME}:${port}`;
    this.tlsUrl = `https://${NAME}:${tlsPort}`;
    // Both lines are this computer's own; the name says that others are passed on to them.
    const words = ['serve', '--data', this.data, '--listen', `127.0.0.1:${port}`, '--name', NAME];
    if (encrypted) words.push('--listen-tls', `127.0.0.1:${tlsPort}`);
    this.child = spawn(program, words, { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] });
    await once(this.child.stdout, 'data');
    this.people = new People(this.ownUrl, this.data);
    for (const url of [this.plainUrl, this.tlsUrl]) this.people.reachedAt(url);
  }

  /** A code that lets one device join, made by a lead: programs with a token let nobody in. */
  async newCode(id) {
    const cookie = await this.people.cookieOf('Ada Brandt');
    const headers = { 'content-type': 'application/json', cookie: `${cookie.name}=${cookie.value}` };
    const body = JSON.stringify({ id, by: 'Ada Brandt' });
    const response = await fetch(`${this.ownUrl}/api/join-codes`, { method: 'POST', headers, body });
    return (await response.json()).code;
  }

  async stop() {
    this.child.kill('SIGTERM');
    await once(this.child, 'exit');
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** A home in which the authority is trusted, as on a phone that got the certificate and took it. */
  async trustingHome() {
    const home = join(this.folder, 'home');
    const certificate = join(this.folder, 'authority.crt');
    writeFileSync(certificate, Buffer.from(await (await fetch(`${this.ownUrl}/authority.crt`)).arrayBuffer()));
    for (const place of ['.pki/nssdb', '.local/share/pki/nssdb']) {
      const base = `sql:${join(home, place)}`;
      mkdirSync(join(home, place), { recursive: true });
      call('certutil', ['-N', '-d', base, '--empty-password']);
      call('certutil', ['-A', '-d', base, '-t', 'C,,', '-n', 'shop', '-i', certificate]);
    }
    return home;
  }

  /** A browser of somebody else: with a camera that shows a test picture, and the network's name for the server. */
  async openPhone({ trusts = true } = {}) {
    return chromium.launch({
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      env: { ...process.env, HOME: trusts ? await this.trustingHome() : join(this.folder, 'bare') },
      args: [
        ...FLAGS,
        `--host-resolver-rules=MAP ${NAME} 127.0.0.1, MAP other.example 127.0.0.1`,
        '--use-fake-device-for-media-stream',
      ],
    });
  }
}
