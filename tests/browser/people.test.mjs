// How people come in and go out, and what others may not. Each against a server of its own with two lathes and three
// people, on which nothing else is entered.
import assert from 'node:assert/strict';
import { createHmac } from 'node:crypto';
import { DESK, openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { JoinableServer } from './joinable.mjs';
import { measure } from './measure.mjs';
import { choosePerson, PASSWORD } from './people.mjs';
import { newId } from './scenes.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const LEAD = 'Ada Brandt';
const OPERATOR = 'Jonas Falk';
const KEY_PX = 64;
const PIN = '493817';

/** Runs against a server of its own that phones can join; the invented shop lets everybody in. */
function peopleTest(name, act) {
  if (!isReal) return;
  test(name, async ({ browser }) => {
    const server = await JoinableServer.open();
    const pages = [];
    const open = async (url, place, more = {}, where = browser) => {
      const page = await openPage(where, url, place, { as: null, ...more });
      pages.push(page);
      return page;
    };
    try {
      await act({ server, open, desk: (more) => open(server.ownUrl, DESK, more) });
      for (const page of pages) assert.deepEqual(page.wrongs, [], 'a page did what it must not');
    } finally {
      for (const page of pages) await page.context().close();
      await server.stop();
    }
  });
}

const heading = (page, text) => page.getByRole('heading', { name: text, level: 1 }).waitFor();
const nameOn = (page) => page.locator('#me-top').innerText();
/** The link's page takes the secret out of its address before it has loaded, so that is not waited for. */
const goTo = (page, address) => page.goto(address, { waitUntil: 'commit' });

async function signIn(page, name, password = PASSWORD) {
  await page.locator('#sign-in-name').fill(name);
  await page.locator('#sign-in-password').fill(password);
  await page.keyboard.press('Enter');
}

/** What an app for one-time codes shows: RFC 6238 with SHA-1, 30 s, 6 digits, of a base32 secret. */
function codeOf(secret, atMs) {
  const bits = [...secret].map((sign) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(sign).toString(2).padStart(5, '0'));
  const key = Buffer.from(
    bits
      .join('')
      .match(/.{8}/g)
      .map((byte) => parseInt(byte, 2)),
  );
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(Math.floor(atMs / 30_000)));
  const hash = createHmac('sha1', key).update(counter).digest();
  const at = hash.at(-1) & 15;
  return String((hash.readUInt32BE(at) & 0x7fffffff) % 1_000_000).padStart(6, '0');
}

/** As a person does with an app, where the page asks for the password; gives the secret. */
async function setUpFactor(page) {
  await page.locator('#factor-now').fill(PASSWORD);
  await page.keyboard.press('Enter');
  const secret = await page.locator('[data-secret]').getAttribute('data-secret');
  await page.locator('#factor-code').fill(codeOf(secret, Date.now()));
  await page.keyboard.press('Enter');
  return secret;
}

/** A phone's page after the device joined. */
async function joinedPhone({ server, open }, phone, more = {}) {
  const page = await open(server.tlsUrl, PHONE, more, phone);
  await page.goto(`/join?code=${await server.newCode(newId())}`);
  await page.locator('#device-title').fill('Phone at the lathes');
  await page.locator('form .main').click();
  await page.locator('[data-check="joined"]').waitFor();
  return page;
}

peopleTest('People: the first lead comes in by a link and lets an operator in', async ({ server, desk }) => {
  const page = await desk();
  await page.goto('/');
  await page.getByText('hourwright admin create NAME --role lead').waitFor();
  await goTo(page, `/enter#${server.people.link(LEAD)}`);
  await page.getByText(`This link is for ${LEAD}, lead.`).waitFor();
  assert.equal(await page.evaluate(() => location.hash), '', 'the secret has left the address bar');
  await page.locator('#enter-password').fill('short');
  await page.keyboard.press('Enter');
  await page.getByText('At least 12 characters').waitFor();
  await expectClean(page, 'link with an error');
  await page.locator('#enter-password').fill(PASSWORD);
  await page.keyboard.press('Enter');
  await page.locator('[data-machine="m1"]').waitFor();
  assert.equal(await nameOn(page), LEAD);

  await page.getByRole('link', { name: 'People and access' }).click();
  await page.getByRole('button', { name: 'Let somebody in' }).click();
  await page.getByLabel('Name', { exact: true }).fill(OPERATOR);
  await page.getByRole('button', { name: 'Make the link' }).click();
  const link = await page.getByRole('textbox', { name: 'One-time link' }).inputValue();
  assert.equal(await page.locator('.qr path').count(), 1);
  await page.locator(`[data-account="${OPERATOR}"][data-role="operator"]`).waitFor();
  await page.getByText(`${OPERATOR}: account made by ${LEAD}`).waitFor();
  await expectClean(page, 'people and access');

  const other = await desk();
  await goTo(other, new URL(link).pathname + new URL(link).hash);
  await other.locator('#enter-pin').fill(PIN);
  await other.keyboard.press('Enter');
  await other.locator('[data-machine="m1"]').waitFor();
  assert.equal(await nameOn(other), OPERATOR);
  await goTo(page, `/enter#${new URL(link).hash.slice(1)}`);
  await page.getByText('This link was used').waitFor();
});

peopleTest('People: at a joined phone a PIN by large keys, and wrong ones wait longer each time', async (ground) => {
  const { server } = ground;
  await server.people.enter(OPERATOR, 'operator', { pin: PIN });
  const phone = await server.openPhone();
  try {
    const page = await joinedPhone(ground, phone, { locale: 'de-DE', viewport: { width: 320, height: 640 } });
    await page.goto('/rounds');
    await measure(page);
    await page.getByRole('button', { name: OPERATOR }).click();
    await page.locator('[data-key="5"]').waitFor();
    await measure(page);
    await expectClean(page, 'the PIN’s keys');
    const { width, height } = await page.locator('[data-key="5"]').boundingBox();
    assert.ok(width >= KEY_PX && height >= KEY_PX, `${width} x ${height}`);
    const wrong = async () => {
      for (const digit of '111222') await page.locator(`[data-key="${digit}"]`).click();
      await page.locator('[data-key="enter"]').click();
      await page.locator('.notice.trouble').waitFor();
    };
    const waits = [];
    for (let tries = 0; tries < 6; tries += 1) {
      await wrong();
      const left = page.locator('[data-left]');
      if ((await left.count()) > 0) {
        waits.push(Number(await left.getAttribute('data-left')));
        await left.waitFor({ state: 'detached' });
      }
    }
    assert.ok(waits.length > 0 && waits.at(-1) >= waits[0], `waits of ${waits}`);
    // The right one has to wait as well, and is then taken: nobody is locked out for good.
    await until('the right PIN is taken', async () => {
      await page.locator('[data-left]').waitFor({ state: 'detached' });
      await page.locator('#pin-title').focus();
      await page.keyboard.type(PIN);
      await page.keyboard.press('Enter');
      await page.locator('#me-top, [data-left]').waitFor();
      return (await page.locator('#me-top').count()) > 0;
    });
    assert.equal(new URL(page.url()).pathname, '/rounds', 'the page that was asked for');
    await page.goto('/me');
    await page.getByText('Wo ich angemeldet bin').waitFor();
    await page.locator('[data-session="this"]').waitFor();
    await measure(page);
    await expectClean(page, 'my account');
  } finally {
    await phone.close();
  }
});

peopleTest('People: a second factor is read, confirmed, and asked for from then on', async ({ server, desk }) => {
  const page = await desk({ as: LEAD });
  await page.goto('/me');
  await page.getByText('Second factor: off').click();
  const secret = await setUpFactor(page);
  await page.getByText('Second factor: on').waitFor();
  const other = await desk();
  await other.goto('/');
  await signIn(other, LEAD);
  await other.locator('#sign-in-code').waitFor();
  await expectClean(other, 'sign-in with a code');
  // A code is good once: the one of the next half minute is another.
  await other.locator('#sign-in-code').fill(codeOf(secret, Date.now() + 30_000));
  await other.keyboard.press('Enter');
  await other.locator('#me-top').waitFor();
  assert.equal(await nameOn(other), LEAD);
});

peopleTest('People: a demanded second factor is set up before anything else', async ({ server, desk }) => {
  await server.people.enter('Eva Holm', 'viewer');
  const seen = await desk();
  await seen.goto('/machine/m1');
  await signIn(seen, 'Eva Holm');
  await seen.locator('#tasks-title').waitFor();

  const lead = await desk({ as: LEAD });
  await lead.goto('/access');
  await lead.getByText('Have none yet: Ada Brandt, Eva Holm').waitFor();
  await lead.getByRole('link', { name: 'Set up my own' }).click();
  await lead.getByText('Second factor: off').click();
  await setUpFactor(lead);
  await lead.getByText('Second factor: on').waitFor();
  await lead.goto('/access');
  await lead.getByRole('button', { name: 'Demand it of: viewer, lead' }).click();
  await lead.getByText('It is demanded of these roles: viewer, lead.').waitFor();
  await lead.getByText(`second factor demanded of office roles by ${LEAD}`).waitFor();
  await expectClean(lead, 'second factor demanded');

  // The page that is open is led there too, without a press.
  await seen.getByText('This shop demands a second factor of your role.').waitFor();
  const fresh = await desk();
  await fresh.goto('/machine/m1');
  await signIn(fresh, 'Eva Holm');
  await fresh.getByText('This shop demands a second factor of your role.').waitFor();
  assert.equal(await fresh.locator('nav a').count(), 0, 'no way to another page');
  await expectClean(fresh, 'second factor to be set up');
  await setUpFactor(fresh);
  await fresh.locator('#tasks-title').waitFor();
  assert.equal(new URL(fresh.url()).pathname, '/machine/m1', 'the page that was asked for');
  assert.equal(await nameOn(fresh), 'Eva Holm');
  await seen.locator('#sign-in-name').waitFor();
});

peopleTest('People: a viewer is offered no deed, and the server takes none', async ({ server, desk }) => {
  await server.people.enter('Eva Holm', 'viewer');
  const page = await desk();
  await page.goto('/machine/m1');
  await signIn(page, 'Eva Holm');
  await page.locator('#tasks-title').waitFor();
  await page.locator('[data-task] button').first().click();
  await page.getByText('Working').first().waitFor();
  for (const deed of ['.done', 'a[href^="/new-finding"]', 'a[href*="change-task"]', 'a[href*="change-plan"]', 'form'])
    assert.equal(await page.locator(`main ${deed}`).count(), 0, deed);
  assert.equal(await page.locator('a[href="/access"]').count(), 0);
  await page.goto('/access');
  await heading(page, 'This page is not for this account');
  const status = await page.evaluate(async () => {
    const of = { id: crypto.randomUUID(), by: 'Eva Holm', what: 'x', severity: 'watch', at: new Date().toISOString() };
    const headers = { 'content-type': 'application/json' };
    const body = JSON.stringify({ ...of, sent_at: of.at });
    return (await fetch('/api/machines/m1/findings', { method: 'POST', headers, body })).status;
  });
  assert.equal(status, 403);
});

peopleTest('People: outside service sees its machine and no other page of the shop', async ({ server, desk }) => {
  const lead = await desk({ as: LEAD });
  await lead.goto('/access');
  await lead.getByRole('button', { name: 'Let somebody in' }).click();
  await lead.getByLabel('Name', { exact: true }).fill('Kim Roth');
  await lead.locator('#account-new-role').selectOption('outside');
  await lead.getByRole('button', { name: 'Make the link' }).click();
  await lead.getByText('Choose one machine or more.').waitFor();
  await lead.getByLabel('Lathe 1').check();
  await lead.locator('#account-new-until').fill('2099-12-31');
  await lead.getByRole('button', { name: 'Make the link' }).click();
  const link = new URL(await lead.getByRole('textbox', { name: 'One-time link' }).inputValue());
  const page = await desk();
  await goTo(page, link.pathname + link.hash);
  await page.locator('#enter-password').fill(PASSWORD);
  await page.keyboard.press('Enter');
  await page.locator('[data-machine="m1"]').waitFor();
  assert.equal(await page.locator('[data-machine]').count(), 1);
  assert.equal(await page.locator('nav a[href="/stores"]').count(), 0);
  await page.goto('/stores');
  await heading(page, 'This page is not for this account');
  assert.equal(await page.evaluate(async () => (await fetch('/api/machines/m2')).status), 403);
});

peopleTest('People: what is not sent yet stays through signing out, and goes for its person only', async (ground) => {
  const { server, desk } = ground;
  await server.people.enter(OPERATOR, 'operator');
  const page = await desk({ as: LEAD });
  await page.goto('/machine/m1');
  await page.locator('[data-task] button').first().click();
  await page.route('**/done', (route) => route.abort());
  await page.locator('.done .main').click();
  await page.locator('.done .kept').waitFor();
  await page.goto('/me');
  await page.getByText('1 entry of yours is not sent yet').waitFor();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await heading(page, 'Sign in');
  await page.getByText(`it is sent when ${LEAD} signs in`).waitFor();
  await page.unroute('**/done');

  await signIn(page, OPERATOR);
  await until('the other one is in', async () => (await page.locator('#me-top').count()) > 0);
  await page.goto('/unsent');
  await page.getByText(`waits until ${LEAD} signs in`).waitFor();
  await page.getByRole('button', { name: 'Send now' }).click();
  await page.getByText('What is left was entered by others').waitFor();
  await page.goto('/me');
  await page.getByRole('button', { name: 'Sign out' }).click();
  await heading(page, 'Sign in');
  await signIn(page, LEAD);
  await page.locator('#me-top', { hasText: LEAD }).waitFor();
  await until('it is sent', async () => (await page.locator('.unsent').count()) === 0);
  const entries = await page.evaluate(async () => (await (await fetch('/api/logbook?machine=m1')).json()).entries);
  assert.deepEqual(
    entries.filter((entry) => entry.kind === 'task done').map((entry) => entry.by),
    [LEAD],
  );
});

peopleTest(
  'People: a session that is ended elsewhere leads to the sign-in page, and back by the keyboard',
  async (ground) => {
    const { desk } = ground;
    const page = await desk({ as: LEAD });
    await page.goto('/findings');
    await page.locator('#finding-machine').waitFor();
    const other = await desk();
    await other.goto('/me');
    await signIn(other, LEAD);
    await other.getByRole('button', { name: 'End all but this one' }).click();
    await heading(page, 'Sign in');
    await page.locator('#sign-in-name').focus();
    await page.keyboard.type(LEAD);
    await page.keyboard.press('Tab');
    await page.keyboard.type(PASSWORD);
    await page.keyboard.press('Enter');
    await page.locator('#finding-machine').waitFor();
    assert.equal(await nameOn(page), LEAD);
    await choosePerson(page, OPERATOR);
    assert.equal(await nameOn(page), OPERATOR, 'another person’s session is noticed');
  },
);
