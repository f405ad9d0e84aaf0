import assert from 'node:assert/strict';
import { openPage, PHONE } from './chromium.mjs';
import { Front } from './front.mjs';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';
import {
  addressOf,
  allSent,
  answeredCount,
  answerOpen,
  entriesOf,
  keptForOffline,
  openCheck,
  openRound,
  pickRound,
  pressAnswer,
  ready,
  servedByWorker,
  turnOf,
} from './walking.mjs';

/** Everything of the round is with the server, each thing once. */
async function expectOnce(server, found, walks = 1) {
  const turn = await turnOf(server, found);
  assert.equal(turn.state, 'walked');
  assert.equal(turn.answers.length, found.round.checks.length);
  const entries = await entriesOf(server, found);
  assert.equal(new Set(entries.map((entry) => entry.id)).size, entries.length);
  assert.equal(entries.filter((entry) => entry.kind === 'round begun').length, walks);
  const answers = entries.flatMap((entry) => entry.answers ?? []).map((one) => one.check);
  assert.deepEqual(answers.sort(), found.round.checks.map((check) => check.key).sort());
}

test(
  'Offline: a round from start to finish with the server dead, the page loaded anew, and everything sent once',
  async ({ page, server }) => {
    const found = await pickRound(server);
    await keptForOffline(page, found);
    await choosePerson(page);
    await server.stop();
    await page.context().setOffline(true);
    try {
      await page.goto(addressOf(found));
      while ((await openCheck(page)) !== null) await answerOpen(page, found);
      const end = await page.locator('.end').innerText();
      assert.match(end, /The round is walked/);
      assert.match(end, new RegExp(`${found.round.checks.length + 1} entries of this machine are on this device`));
      assert.match(await page.locator('.unsent').innerText(), new RegExp(`${found.round.checks.length + 1} not sent`));
      await page.goto('/rounds');
      const line = page.locator(`[data-round="${found.machine.machine}/${found.round.rhythm}"]`);
      assert.equal(await line.getAttribute('data-state'), 'walked');
    } finally {
      await page.context().setOffline(false);
      await server.start();
    }
    await allSent(page);
    await expectOnce(server, found);
  },
  { place: PHONE },
);

for (const isWaiting of [true, false])
  test(
    `Offline: the tab is killed after each press${isWaiting ? '' : ', without waiting'}; nothing is lost, nothing twice`,
    async ({ page, server }) => {
      const found = await pickRound(server);
      const context = page.context();
      await keptForOffline(page, found);
      await choosePerson(page);
      await context.setOffline(true);
      let tab = page;
      let confirmed = 0;
      for (let tries = 0; tries < 40 && tab !== null; tries += 1) {
        await tab.goto(addressOf(found));
        const key = await openCheck(tab);
        assert.ok((await answeredCount(tab)) >= confirmed, 'what was confirmed is still there');
        if (key === null) break;
        const check = found.round.checks.find((one) => one.key === key);
        await pressAnswer(tab, check);
        if (isWaiting)
          await until('it is confirmed', async () => (await answeredCount(tab)) > confirmed).then(
            () => (confirmed += 1),
          );
        // Later each time: at once, in the middle of keeping it, and after.
        else await new Promise((resolve) => setTimeout(resolve, tries * 15));
        await tab.close({ runBeforeUnload: false });
        tab = await context.newPage();
        tab.setDefaultTimeout(20_000);
      }
      await context.setOffline(false);
      await tab.goto(addressOf(found));
      await tab.locator('.end').waitFor();
      await allSent(tab);
      await expectOnce(server, found);
    },
    { place: PHONE },
  );

test(
  'Offline: the browser’s page crashes in the middle; the round goes on where it was left',
  async ({ page, server }) => {
    const found = await pickRound(server);
    const context = page.context();
    await openRound(page, found);
    await choosePerson(page);
    const first = await answerOpen(page, found);
    const session = await context.newCDPSession(page);
    session.send('Page.crash').catch(() => undefined);
    await new Promise((resolve) => page.once('crash', resolve));
    const tab = await context.newPage();
    await openRound(tab, found);
    assert.equal(await answeredCount(tab), 1);
    assert.notEqual(await openCheck(tab), first);
    while ((await openCheck(tab)) !== null) await answerOpen(tab, found);
    await allSent(tab);
    await expectOnce(server, found);
  },
  { place: PHONE },
);

test('Offline: a newer build is put on in between; the page stays until a person says so, and finds its own pieces', async ({
  server,
  browser,
}) => {
  const front = await Front.open(server);
  const page = await openPage(browser, front.url, PHONE);
  try {
    const found = await pickRound(server);
    await keptForOffline(page, found);
    await page.goto(addressOf(found));
    await choosePerson(page);
    await answerOpen(page, found);
    front.putOn('b2');
    await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
    await page.locator('.newer').waitFor();
    front.isCut = true;
    front.http.closeAllConnections();
    await answerOpen(page, found);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.build), undefined);
    // Another tab takes the newer build; this one runs on, and a piece that only its own build has is still there.
    const other = await page.context().newPage();
    await other.goto(addressOf(found));
    await other.locator('.newer button').click();
    await until(
      'the other tab runs the newer build',
      async () => (await other.evaluate(() => document.documentElement.dataset.build).catch(() => '')) === 'b2',
    );
    await other.locator('.card').waitFor();
    assert.equal(await answeredCount(other), 2);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.build), undefined);
    const menu = page.locator('header .menu');
    if (await menu.isVisible()) await menu.click();
    await page.locator('header nav a[href="/logbook"]').click();
    await until('the older build’s page came', async () => /Logbook/.test(await page.locator('h1').innerText()));
    while ((await openCheck(other)) !== null) await answerOpen(other, found);
    front.isCut = false;
    await allSent(other);
    await expectOnce(server, found);
    const caches = await other.evaluate(() => window.caches.keys());
    assert.equal(caches.filter((name) => name.startsWith('hourwright build')).length, 2);
  } finally {
    await page.context().close();
    await front.close();
  }
});

test('Offline: the two newest builds are kept, and nothing of the API', async ({ server, browser }) => {
  const front = await Front.open(server);
  const page = await openPage(browser, front.url, PHONE);
  try {
    await page.goto('/rounds');
    await servedByWorker(page);
    for (const mark of ['b2', 'b3']) {
      front.putOn(mark);
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).update());
      await page.locator('.newer button').click();
      await until(
        'it runs the newer build',
        async () => (await page.evaluate(() => document.documentElement.dataset.build).catch(() => '')) === mark,
      );
      await page.locator('[data-kept="true"]').waitFor();
    }
    const kept = await page.evaluate(async () => {
      const names = await window.caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await window.caches.open(name)).keys()));
      return { names, paths: lists.flat().map((request) => new URL(request.url).pathname) };
    });
    assert.deepEqual(kept.names.map((name) => name.split(' ')[2]).sort(), ['2', '3']);
    assert.ok(kept.paths.length > 10);
    assert.deepEqual(
      kept.paths.filter((path) => path.startsWith('/api')),
      [],
    );
  } finally {
    await page.context().close();
    await front.close();
  }
});

test(
  'Offline: a phone whose clock is two days ahead walks the round of now',
  async ({ page, server }) => {
    await page.addInitScript(() => {
      const ahead = 2 * 86_400_000;
      const Real = Date;
      globalThis.Date = class extends Real {
        constructor(...given) {
          super(...(given.length === 0 ? [Real.now() + ahead] : given));
        }
        static now() {
          return Real.now() + ahead;
        }
      };
    });
    const found = await pickRound(server);
    await openRound(page, found);
    await choosePerson(page);
    await answerOpen(page, found);
    await answerOpen(page, found);
    await allSent(page);
    assert.equal((await turnOf(server, found)).answers.length, 2);
    assert.equal(await answeredCount(page), 2);
    const off = (await entriesOf(server, found)).map(
      (entry) => Date.parse(entry.device_at) - Date.parse(entry.happened_at),
    );
    for (const ms of off) assert.ok(Math.abs(ms - 2 * 86_400_000) < 60_000, `${ms} ms`);
  },
  { place: PHONE },
);

test('Offline: the round of this turn goes on after it was sent and the page loaded anew', async ({ page, server }) => {
  const found = await pickRound(server);
  await openRound(page, found);
  await choosePerson(page);
  await answerOpen(page, found);
  await allSent(page);
  await page.reload();
  assert.equal((await openCheck(page)) !== null, true);
  assert.equal(await answeredCount(page), 1);
  while ((await openCheck(page)) !== null) await answerOpen(page, found);
  await allSent(page);
  await expectOnce(server, found);
  assert.equal(await ready(page).count(), 0);
});
