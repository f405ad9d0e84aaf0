import assert from 'node:assert/strict';
import { DESK, openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { JoinableServer } from './joinable.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const MAIN_PX = 96;

/** Runs against a server of its own that phones can join; the invented shop has none. */
function joinTest(name, act, { encrypted = true, trusts = true } = {}) {
  if (!isReal) return;
  test(name, async ({ browser }) => {
    const server = await JoinableServer.open({ encrypted });
    const phone = await server.openPhone({ trusts: encrypted && trusts });
    const wrongs = [];
    const open = async (url, place = PHONE, more = {}, where = phone) => {
      const page = await openPage(where, url, place, { as: null, ...more });
      wrongs.push(page);
      return page;
    };
    try {
      await act({ server, open, desk: () => open(server.ownUrl, DESK, { as: undefined }, browser) });
      for (const page of wrongs) assert.deepEqual(page.wrongs, [], 'a page did what it must not');
    } finally {
      await phone.close();
      await server.stop();
    }
  });
}

const newCode = (server) => server.newCode(newId());
const verdict = (page, name) => page.locator(`[data-check="${name}"]`).getAttribute('data-verdict');
const heading = (page, text) => page.getByRole('heading', { name: text, level: 1 }).waitFor();

async function fillAndJoin(page, title) {
  await page.locator('#device-title').fill(title);
  await page.getByRole('button', { name: 'Join', exact: true }).click();
}

joinTest('Join: from the desk’s code over the encrypted line to a device on which all works', async (ground) => {
  const { server, open, desk } = ground;
  const page = await desk();
  await page.goto('/join');
  await choosePerson(page);
  await page.getByRole('button', { name: 'Show a code' }).click();
  const code = await page.locator('[data-code]').getAttribute('data-code');
  assert.match(code, /^[34679ACDEFHJKMNPRTWXY]{8}$/);
  assert.equal(await page.locator('.qr path').count(), 1);

  const plain = await open(server.plainUrl);
  await plain.goto('/');
  await heading(plain, 'Sign in');
  await plain.getByRole('link', { name: 'Join with a code' }).waitFor();
  await plain.goto(`/join?code=${code}`);
  await plain.getByRole('link', { name: 'Get the certificate' }).waitFor();
  const link = await plain.getByRole('link', { name: 'Open the encrypted page' }).getAttribute('href');
  assert.equal(link, `${server.tlsUrl}/join?code=${code}`);

  const phone = await open(server.tlsUrl, PHONE, { permissions: ['camera'] });
  await phone.goto(link);
  await fillAndJoin(phone, 'Phone at the lathes');
  await until('the line is encrypted and trusted', async () => (await verdict(phone, 'trusted')) === 'yes');
  for (const name of ['joined', 'secure']) assert.equal(await verdict(phone, name), 'yes', name);
  await phone.getByRole('button', { name: 'Try the camera' }).click();
  await until('the camera is there', async () => (await verdict(phone, 'camera')) === 'yes');
  await until('the probing worker is gone', () =>
    phone.evaluate(async () => {
      const all = await navigator.serviceWorker.getRegistrations();
      return all.every((one) => !one.scope.endsWith('/join-probe/'));
    }),
  );

  await page.getByText('“Phone at the lathes” has joined.').waitFor();
  await choosePerson(phone);
  await phone.getByRole('link', { name: 'To the Floor' }).click();
  await phone.locator('[data-machine="m1"]').waitFor();

  await page.getByRole('button', { name: 'End “Phone at the lathes”' }).click();
  await page.getByRole('button', { name: 'Yes, end it' }).click();
  await page.getByText('1 device that has ended').waitFor();
  await until('it may no longer', () =>
    phone.evaluate(async () => (await (await fetch('/api/join')).json()).device === null),
  );
});

joinTest(
  'Join: a phone that does not trust the authority does not come to the encrypted page',
  async ({ server, open }) => {
    const phone = await open(server.tlsUrl);
    await assert.rejects(phone.goto('/join'), /ERR_CERT_AUTHORITY_INVALID/);
  },
  { trusts: false },
);

joinTest('Join: the authority counts for its own name only', async ({ server, open }) => {
  const phone = await open(server.tlsUrl);
  await assert.rejects(phone.goto(server.tlsUrl.replace('shop', 'other')), (error) =>
    error.message.includes('ERR_CERT_COMMON_NAME_INVALID'),
  );
  phone.wrongs.length = 0;
});

joinTest('Join: without encryption a phone may go on, and is told what it lacks', async ({ server, open }) => {
  const phone = await open(server.plainUrl);
  await phone.goto(`/join?code=${await newCode(server)}`);
  await phone.getByText('Go on without encryption').click();
  await phone.getByText('No camera: browsers give it to encrypted pages only.').waitFor();
  await fillAndJoin(phone, 'Old tablet');
  await phone.getByText('This device is “Old tablet”.').waitFor();
  await until('it was looked at', async () => (await verdict(phone, 'secure')) === 'no');
  for (const name of ['trusted', 'worker', 'kept', 'camera']) assert.equal(await verdict(phone, name), 'no', name);
  await choosePerson(phone);
  await phone.getByRole('link', { name: 'To the Floor' }).click();
  await phone.locator('[data-machine="m1"]').waitFor();
  await phone.getByText('This line is not encrypted').waitFor();
});

joinTest(
  'Join: what is typed wrongly is said beside its field, and a used code lets nobody else in',
  async (ground) => {
    const { server, open } = ground;
    const phone = await open(server.tlsUrl);
    await phone.goto('/join');
    await phone.getByRole('button', { name: 'Join', exact: true }).click();
    assert.match(await phone.locator('#device-title-wrong').innerText(), /Write a name/);
    assert.match(await phone.locator('#join-code-wrong').innerText(), /Type the code/);
    await phone.locator('#join-code').fill('WXYW XYWX');
    await fillAndJoin(phone, 'Phone');
    await phone.getByText('This code is not valid, or no longer.').waitFor();
    const code = await newCode(server);
    await phone.locator('#join-code').fill(`${code.slice(0, 4)} ${code.slice(4).toLowerCase()}`);
    await fillAndJoin(phone, 'Phone');
    await phone.getByText('This device is “Phone”.').waitFor();
    const other = await open(server.tlsUrl);
    await other.goto(`/join?code=${code}`);
    await fillAndJoin(other, 'Another');
    await other.getByText('Another device has joined by this code.').waitFor();
  },
);

joinTest('Join: pages are large for a glove, without a finding, in both languages and looks', async (ground) => {
  const { server, open } = ground;
  await server.people.cookieOf('Ada Brandt');
  for (const [locale, colorScheme] of [
    ['en-GB', 'light'],
    ['de-DE', 'dark'],
  ]) {
    const look = async (page, where) => {
      await measure(page);
      await expectClean(page, where);
    };
    const plain = await open(server.plainUrl, PHONE, { locale, colorScheme });
    await plain.goto('/');
    await plain.getByRole('link', { name: /code|Code/ }).waitFor();
    await look(plain, 'not joined');
    await plain.goto(`/join?code=${await newCode(server)}`);
    await plain.locator('fieldset').waitFor();
    for (const kind of ['android', 'ios', 'other']) {
      await plain.locator(`input[value="${kind}"]`).check();
      await expectClean(plain, `steps, ${kind}`);
    }
    await plain.locator('main summary').first().click();
    await look(plain, 'steps');
    const get = await plain.locator('a[href="/authority.crt"]').boundingBox();
    assert.ok(get.height >= MAIN_PX && get.width >= 340, `${get.width} x ${get.height}`);
    const phone = await open(server.tlsUrl, PHONE, { locale, colorScheme });
    await phone.goto(`/join?code=${await newCode(server)}`);
    await phone.locator('form .main').click();
    await phone.locator('.wrong').first().waitFor();
    await look(phone, 'form with errors');
    await phone.locator('#device-title').fill('Telefon');
    await phone.locator('form .main').click();
    await until('it was looked at', async () => (await verdict(phone, 'trusted')) === 'yes');
    await look(phone, 'checks');
    await choosePerson(phone);
    await phone.locator('main summary').first().click();
    await phone.locator('[data-device]').first().waitFor();
    await look(phone, 'checks and devices');
  }
});

joinTest('Join: the desk’s page has no finding and fits 320 px', async ({ server, open, desk }) => {
  const page = await desk();
  await page.goto('/join');
  await page.getByRole('button', { name: 'Show a code' }).waitFor();
  await expectClean(page, 'desk');
  await choosePerson(page);
  await page.getByRole('button', { name: 'Show a code' }).click();
  await page.locator('[data-code]').waitFor();
  await expectClean(page, 'desk, code');
  const narrow = await open(server.plainUrl, { ...PHONE, viewport: { width: 320, height: 640 } }, { locale: 'de-DE' });
  await narrow.goto('/join?code=AAAACCCC');
  await narrow.locator('fieldset').waitFor();
  await measure(narrow);
});

joinTest(
  'Join: a server without encryption says what it lacks, on the desk and on the phone',
  async ({ server, open, desk }) => {
    const page = await desk();
    await page.goto('/join');
    await page.getByText('hourwright tls init').waitFor();
    await expectClean(page, 'desk without encryption');
    const phone = await open(server.plainUrl);
    await phone.goto(`/join?code=${await newCode(server)}`);
    await phone.getByText('No camera: browsers give it to encrypted pages only.').waitFor();
    await measure(phone);
    await fillAndJoin(phone, 'Phone');
    await phone.getByText('This device is “Phone”.').waitFor();
  },
  { encrypted: false },
);

test('Join: while only this computer reaches the server, its page says how to change that', async ({ page }) => {
  await page.goto('/join');
  await page.getByText('Only this computer can reach the server, so no phone can join yet.').waitFor();
  assert.match(await page.locator('pre').first().innerText(), /^hourwright tls init --data/);
  await expectClean(page, 'join, only here');
});

joinTest('Labels: at the desk the address is proposed by which phones reach the server', async ({ desk, server }) => {
  const page = await desk();
  await page.goto(new URL('/labels', server.ownUrl).href);
  const { addresses } = await (await fetch(new URL('/api/join', server.ownUrl))).json();
  assert.match(addresses[0], /^https:/);
  await until('it is proposed', async () => (await page.locator('#base').inputValue()) === addresses[0]);
  assert.equal(await page.locator('.notice.care').count(), 0);
  await page.locator('#base').fill('http://other.example');
  assert.equal(await page.locator('#base').inputValue(), 'http://other.example');
});
