// A small runner: tests register themselves, run one after the other against one server and one browser, and the last
// line says how many passed.
import assert from 'node:assert/strict';
import { DESK, openChromium, openPage } from './chromium.mjs';
import { Server } from './server.mjs';

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

async function report(one, server, browser) {
  const begin = Date.now();
  try {
    await runOne(one, server, browser);
    console.log(`ok     ${one.name} (${((Date.now() - begin) / 1000).toFixed(1)} s)`);
    return true;
  } catch (error) {
    console.log(`FAILED ${one.name}\n       ${String(error.stack ?? error).replaceAll('\n', '\n       ')}`);
    return false;
  }
}

/** Runs all, or those whose name contains `only`; gives the number of failures. */
export async function runAll(only = '') {
  const server = await Server.open();
  const browser = await openChromium();
  const chosen = tests.filter((one) => one.name.includes(only));
  let passed = 0;
  try {
    for (const one of chosen) if (await report(one, server, browser)) passed += 1;
  } finally {
    await browser.close();
    await server.stop();
  }
  console.log(`${passed} passed, ${chosen.length - passed} failed`);
  return chosen.length === 0 ? 1 : chosen.length - passed;
}
