import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { Front } from './front.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';
import {
  allSent,
  answeredCount,
  answerOpen,
  entriesOf,
  openCheck,
  openRound,
  pickRound,
  pressAnswer,
  ready,
  turnOf,
} from './walking.mjs';

let waited = null;

/** A round for several tests that answer one check each. */
async function openWaited(page, server) {
  waited ??= await pickRound(server);
  await openRound(page, waited);
  await choosePerson(page);
  return { found: waited, answers: (await turnOf(server, waited)).answers.length };
}

async function pressOpen(page, found) {
  const key = await openCheck(page);
  await pressAnswer(
    page,
    found.round.checks.find((one) => one.key === key),
  );
}

const isAnswers = (method, path) => method === 'POST' && path.endsWith('/answers');

test('Outbox: the network is cut after the server took an entry; it is sent again and is there once', async ({
  server,
  browser,
}) => {
  const front = await Front.open(server);
  const page = await openPage(browser, front.url, PHONE);
  try {
    const found = await pickRound(server);
    await openRound(page, found);
    await choosePerson(page);
    const lost = [];
    front.losesAnswer = (method, path) => {
      const loses = method === 'POST' && lost.length < 3;
      if (loses) lost.push(path);
      return loses;
    };
    await answerOpen(page, found);
    await answerOpen(page, found);
    await until('answers got lost', () => lost.length === 3, 60_000);
    await allSent(page);
    assert.ok(lost.some((path) => isAnswers('POST', path)) || lost.every((path) => path.endsWith('/walks')));
    const entries = await entriesOf(server, found);
    assert.deepEqual(entries.map((entry) => entry.kind).sort(), ['check answered', 'check answered', 'round begun']);
  } finally {
    await page.context().close();
    await front.close();
  }
});

test('Outbox: where the storage is full it is said before anything is confirmed, and works again when it is not', async ({
  page,
  server,
}) => {
  await page.addInitScript(() => {
    const real = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...given) {
      if (window.isFull) throw new DOMException('no room left', 'QuotaExceededError');
      return real.apply(this, given);
    };
  });
  const found = await pickRound(server);
  await openRound(page, found);
  await choosePerson(page);
  await page.evaluate(() => (window.isFull = true));
  await ready(page).waitFor();
  const key = await page.locator('.card').getAttribute('data-check');
  await pressAnswer(
    page,
    found.round.checks.find((one) => one.key === key),
  );
  await page.locator('.notice.trouble').waitFor();
  assert.match(await page.locator('.notice.trouble').innerText(), /Not kept: the storage of this device is full/);
  assert.equal(await answeredCount(page), 0);
  assert.equal(await page.locator('.unsent').count(), 0);
  assert.equal(await page.locator('.card').getAttribute('data-check'), key);
  assert.equal((await turnOf(server, found)).answers.length, 0);
  await page.evaluate(() => (window.isFull = false));
  await answerOpen(page, found);
  await allSent(page);
  assert.equal((await turnOf(server, found)).answers.length, 1);
});

const refuseAnswers = (page, status, detail) =>
  page.route('**/answers', (route) =>
    route.fulfill({
      status,
      contentType: 'application/problem+json',
      body: JSON.stringify({ type: 'about:blank', title: 'Refused', status, detail }),
    }),
  );

test(
  'Outbox: what the server refuses is listed with its reason, handed out as a file, and goes only by a second press',
  async ({ page, server }) => {
    const found = await pickRound(server);
    await openRound(page, found);
    const person = await choosePerson(page);
    await refuseAnswers(page, 400, 'answers: this check was never there.');
    const first = found.round.checks[0];
    await ready(page).waitFor();
    await pressAnswer(page, first);
    await until('the badge says so', async () => /refused something/.test(await page.locator('.unsent').innerText()));
    await until('the row says so', async () =>
      /refused/.test(await page.locator(`[data-check="${first.key}"]`).first().innerText()),
    );
    await page.locator('.unsent').click();
    const row = page.locator('li[data-state="refused"]');
    await row.waitFor();
    assert.match(await row.innerText(), /The server says: answers: this check was never there\./);
    await measure(page);
    await expectClean(page, 'unsent');
    const download = page.waitForEvent('download');
    await row.getByRole('button', { name: 'Save as a file' }).click();
    const { entries } = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
    assert.deepEqual([entries.length, entries[0].operation, entries[0].body.by], [1, 'answerChecks', person]);
    await page.reload();
    await row.getByRole('button', { name: 'Dismiss…' }).click();
    await row.getByRole('button', { name: 'No, keep it' }).click();
    assert.equal(await row.count(), 1);
    await page.unroute('**/answers');
    await row.getByRole('button', { name: 'Send again' }).click();
    await allSent(page);
    assert.equal((await turnOf(server, found)).answers.length, 1);
  },
  { place: PHONE },
);

test('Outbox: a refused entry that is dismissed is gone', async ({ page, server }) => {
  const { found } = await openWaited(page, server);
  await refuseAnswers(page, 409, 'No.');
  await pressOpen(page, found);
  await until('it is refused', async () => /refused/.test(await page.locator('.unsent').innerText()));
  await page.goto('/unsent');
  await page.getByRole('button', { name: 'Dismiss…' }).click();
  await page.getByRole('button', { name: 'Yes, dismiss it' }).click();
  await allSent(page);
  assert.match(await page.locator('main').innerText(), /Everything that was entered here is with the server/);
});

for (const [status, says] of [
  [401, /Nobody has signed in/],
  [429, /cannot be reached, or cannot take them now/],
  [503, /cannot be reached, or cannot take them now/],
])
  test(`Outbox: an answer of ${status} refuses nothing; it waits and is sent later`, async ({ page, server }) => {
    const { found, answers } = await openWaited(page, server);
    await refuseAnswers(page, status, 'Later.');
    await pressOpen(page, found);
    await page.locator('.unsent').click();
    await until('it says why', async () => says.test(await page.locator('main').innerText()));
    assert.equal(await page.locator('li[data-state="waiting"]').count(), 1);
    await page.unroute('**/answers');
    await page.getByRole('button', { name: 'Send now' }).click();
    await allSent(page);
    assert.equal((await turnOf(server, found)).answers.length, answers + 1);
  });

test('Outbox: several tabs show the same and send each entry once', async ({ page, server }) => {
  const found = await pickRound(server);
  const context = page.context();
  await openRound(page, found);
  await choosePerson(page);
  const other = await context.newPage();
  await other.goto('/rounds');
  await other.locator('[data-round]').first().waitFor();
  await context.setOffline(true);
  for (let count = 0; count < 3; count += 1) await answerOpen(page, found);
  await until('the other tab shows it', async () => /4 not sent/.test(await other.locator('.unsent').innerText()));
  const sent = [];
  for (const tab of [page, other])
    tab.on('request', (request) => request.method() === 'POST' && sent.push(JSON.parse(request.postData()).id));
  await context.setOffline(false);
  await allSent(page);
  await allSent(other);
  assert.equal(sent.length, new Set(sent).size, 'no entry was sent twice');
  assert.equal((await entriesOf(server, found)).length, 4);
});
