// Started by run.mjs: runs the test files that it is told, one after the other, on one server and in one browser.
import { openChromium } from './chromium.mjs';
import { Server } from './server.mjs';
import { runRegistered } from './suite.mjs';

/** Each takes so many machines of a shop that the next of them needs a shop of its own. */
const TAKING_MACHINES = ['round_walk', 'round_offline', 'outbox', 'planning', 'stops'];

const only = process.argv[2] ?? '';
let server;
let browser;
let isTaken = false;

async function runFile(file) {
  if (TAKING_MACHINES.includes(file)) {
    if (isTaken) {
      await server?.stop();
      server = undefined;
    }
    isTaken = true;
  }
  await import(`./${file}.test.mjs`);
  // A server and a browser only where there is something to run.
  const place = async () => ({ server: (server ??= await Server.open()), browser: (browser ??= await openChromium()) });
  process.send(await runRegistered(only, place));
}

async function end() {
  await browser?.close();
  await server?.stop();
  process.disconnect();
}

process.on('message', ({ file }) => void (file ? runFile(file) : end()));
process.send({ ready: true });
