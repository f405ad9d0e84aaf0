// A front before the server, for what a server does not do by itself: it serves a build of the app from a folder that can
// be changed, hands everything of the API on, and can lose an answer on the way back or cut the line.
import { once } from 'node:events';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, request } from 'node:http';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { filesOf, workerWithBuild } from '../../app/steps/write_worker.mjs';

const DIST = fileURLToPath(new URL('../../app/dist/', import.meta.url));
const TYPES = {
  ...{ '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml' },
  ...{ '.png': 'image/png', '.webmanifest': 'application/manifest+json' },
};

/** The same app as another build: its lazy pages have other names, and the page says which build it is. */
function newerBuild(folder, mark) {
  const files = filesOf(folder).filter((name) => !name.endsWith('.png'));
  const lazy = files.filter((name) => /\/Logbook-.*\.js$/.test(name)).map((name) => name.split('/').at(-1));
  for (const name of files) {
    let text = readFileSync(join(folder, name), 'utf8');
    for (const one of lazy) text = text.replaceAll(one, one.replace('.js', `-${mark}.js`));
    if (name === 'index.html') text = text.replace('<html ', `<html data-build="${mark}" `);
    writeFileSync(join(folder, name), text);
  }
  for (const one of lazy)
    renameSync(join(folder, 'assets', one), join(folder, 'assets', one.replace('.js', `-${mark}.js`)));
  const worker = readFileSync(join(folder, 'worker.js'), 'utf8').replace(/^self\.BUILD.*\n/, '');
  writeFileSync(join(folder, 'worker.js'), workerWithBuild(folder, worker));
}

export class Front {
  static async open(server) {
    const front = new Front(server);
    front.http.listen(0, '127.0.0.1');
    await once(front.http, 'listening');
    front.url = `http://127.0.0.1:${front.http.address().port}`;
    server.people.reachedAt(front.url);
    return front;
  }

  constructor(server) {
    this.server = server;
    this.folder = mkdtempSync(join(tmpdir(), 'build-'));
    cpSync(DIST, this.folder, { recursive: true });
    /** Given method and path of each request to the API; true: the server gets it, the answer is lost. */
    this.losesAnswer = () => false;
    this.isCut = false;
    this.http = createServer((incoming, outgoing) => this.answer(incoming, outgoing));
  }

  putOn(mark) {
    newerBuild(this.folder, mark);
  }

  async close() {
    this.http.closeAllConnections();
    this.http.close();
    rmSync(this.folder, { recursive: true });
  }

  answer(incoming, outgoing) {
    const { pathname } = new URL(incoming.url, this.url);
    if (this.isCut) incoming.socket.destroy();
    else if (pathname.startsWith('/api') || pathname === '/healthz') this.handOn(incoming, outgoing, pathname);
    else this.file(outgoing, pathname);
  }

  handOn(incoming, outgoing, pathname) {
    const { method, url, headers } = incoming;
    const loses = this.losesAnswer(method, pathname);
    const onward = request(this.server.url + url, { method, headers }, (answer) => {
      if (loses) {
        answer.resume();
        answer.on('end', () => incoming.socket.destroy());
        return;
      }
      outgoing.writeHead(answer.statusCode, answer.headers);
      answer.pipe(outgoing);
    });
    onward.on('error', () => incoming.socket.destroy());
    outgoing.on('close', () => onward.destroy());
    incoming.pipe(onward);
  }

  file(outgoing, pathname) {
    const wanted = join(this.folder, pathname);
    const isThere = extname(pathname) !== '' && statSync(wanted, { throwIfNoEntry: false })?.isFile();
    if (extname(pathname) !== '' && !isThere) return void outgoing.writeHead(404).end();
    const path = isThere ? wanted : join(this.folder, 'index.html');
    outgoing.writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'text/plain', 'cache-control': 'no-cache' });
    outgoing.end(readFileSync(path));
  }
}
