// A small runner: tests register themselves, and run one after the other against one server and one browser.
import assert from 'node:assert/strict';
import { DESK, openPage } from './chromium.mjs';

const TEST_MS_MAX = 300_000;
const tests = [];

/** A test gets { page, server, browser, url }; `more` may set the place and options of its page. */
export function test(name, act, { place = DESK, context = {} } = {}) {
  tests.push({ name, act, place, context });
}

/** Waits until `probe` gives something true, and gives it back. */
export async function until(what, probe, msMax = 20_000) {
  const end = Date.now() + msMax;
  for (;;) {
    const found = await probe();
    if (found) return found;
    if (Date.now() > end) throw new Error(`waited ${msMax / 1000} s in vain until ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

function deadline() {
  let timer;
  const over = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error(`took longer than ${TEST_MS_MAX / 1000} s`)), TEST_MS_MAX);
  });
  return { over, clear: () => clearTimeout(timer) };
}

async function runOne(one, server, browser) {
  const page = await openPage(browser, server.url, one.place, one.context);
  const limit = deadline();
  try {
    await Promise.race([one.act({ page, server, browser, url: server.url }), limit.over]);
    assert.deepEqual(page.wrongs, [], 'the page did what it must not');
  } finally {
    limit.clear();
    await page.context().close();
  }
}

async function runTimed(one, server, browser) {
  const begin = Date.now();
  try {
    await runOne(one, server, browser);
    return { passed: true, line: `ok     ${one.name} (${((Date.now() - begin) / 1000).toFixed(1)} s)` };
  } catch (error) {
    const why = String(error.stack ?? error).replaceAll('\n', '\n       ');
    return { passed: false, line: `FAILED ${one.name}\n       ${why}` };
  }
}

/** Runs what was registered since the last call, or what of it has `only` in its name, at the place that `open` gives. */
export async function runRegistered(only, open) {
  const chosen = tests.splice(0).filter((one) => one.name.includes(only));
  const result = { lines: [], passed: 0, failed: 0 };
  for (const one of chosen) {
    const { server, browser } = await open();
    // One that failed while the server was stopped must not spoil the next.
    if (server.hasEnded()) await server.start();
    const { passed, line } = await runTimed(one, server, browser);
    result[passed ? 'passed' : 'failed'] += 1;
    result.lines.push(line);
  }
  return result;
}
