// The invented shop over HTTP, with the built app beside it when there is one.
// usage: node fake/serve.mjs [--listen 127.0.0.1:8470] [--many]    (--many: 200 machines of 40 tasks on the Horizon)
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { many } from './horizon.mjs';
import { Refusal } from './refusal.mjs';
import { routesOf } from './routes.mjs';
import { Shop } from './shop.mjs';

const DIST = fileURLToPath(new URL('../dist/', import.meta.url));
const TYPES = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};
// As libs/http promises: own scripts, styles and connections only; nothing inline; never in a frame. Pictures also from
// the page itself: photos that are not sent yet.
const POLICY =
  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; " +
  "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";
const BODY_MAX = 1024 * 1024;

const shop = new Shop();
if (process.argv.includes('--many')) {
  const few = shop.dates.horizon.bind(shop.dates);
  shop.dates.horizon = (key) => (key ? few(key) : many(few(), 200, 40));
}
const streams = new Set();

function publish(event, data) {
  for (const stream of streams) stream.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
}

function publishMachines() {
  for (const machine of shop.machines) if (machine.feed !== 'lost') publish('machine', shop.floorMachine(machine));
}

const routes = routesOf(shop, (machine) => publish('tasks', { machine }));

/** A photo's bytes, or the JSON of all else. */
async function bodyOf(request) {
  const chunks = [];
  let bytes = 0;
  for await (const chunk of request) {
    chunks.push(chunk);
    bytes += chunk.length;
    if (bytes > BODY_MAX) throw new Refusal(413, 'too-large', 'The body should be at most 1 MiB.');
  }
  const body = Buffer.concat(chunks);
  if (request.headers['content-type']?.startsWith('image/')) return { type: request.headers['content-type'], body };
  return bytes === 0 ? {} : JSON.parse(body.toString());
}

async function answerApi(request, response, url) {
  for (const [method, pattern, act] of routes) {
    const found = pattern.exec(url.pathname);
    if (!found || method !== request.method) continue;
    const answer = act(found.slice(1).map(decodeURIComponent), await bodyOf(request), url.searchParams);
    if (answer?.body !== undefined) response.writeHead(200, { 'content-type': answer.type }).end(answer.body);
    else response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify(answer));
    return;
  }
  throw new Refusal(404, 'not-found', `There is no ${request.method} ${url.pathname}.`);
}

function openStream(response) {
  response.writeHead(200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' });
  response.write(': open\n\n');
  streams.add(response);
  response.on('close', () => streams.delete(response));
}

function answerFile(response, pathname) {
  const wanted = join(DIST, normalize(pathname));
  const path = wanted.startsWith(DIST) && extname(wanted) && existsSync(wanted) ? wanted : join(DIST, 'index.html');
  response
    .writeHead(200, { 'content-type': TYPES[extname(path)] ?? 'application/octet-stream' })
    .end(readFileSync(path));
}

function refuse(response, error) {
  const status = error instanceof Refusal ? error.status : error instanceof SyntaxError ? 400 : 500;
  const problem = { type: `/problems/${error.code ?? 'bad-json'}`, title: 'Refused', status, detail: error.message };
  response.writeHead(status, { 'content-type': 'application/problem+json' }).end(JSON.stringify(problem));
}

const server = createServer(async (request, response) => {
  const url = new URL(request.url, 'http://fake');
  response.setHeader('content-security-policy', POLICY);
  try {
    if (url.pathname === '/healthz') response.writeHead(200, { 'content-type': 'text/plain' }).end('ok');
    else if (url.pathname === '/api/events') openStream(response);
    else if (url.pathname.startsWith('/api/')) await answerApi(request, response, url);
    else answerFile(response, url.pathname);
  } catch (error) {
    refuse(response, error);
  }
});

const listen = process.argv[process.argv.indexOf('--listen') + 1] ?? '';
const [host, port] = process.argv.includes('--listen') ? listen.split(':') : ['127.0.0.1', '8470'];
server.listen(Number(port), host, () =>
  console.log(`The invented shop is at http://${host}:${server.address().port}/`),
);
setInterval(publishMachines, 1000);
