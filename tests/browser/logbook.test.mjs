import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';
import { test, until } from './suite.mjs';

const rows = (page) => page.locator('[data-entry]');
const rowOf = (page, id) => page.locator(`[data-entry="${id}"]`);

/** Enters so many tasks done on a machine, each with a note; gives the entries. */
async function enterDone(server, machine, count, note = 'looked well') {
  const { tasks } = await server.get(`/api/machines/${machine}`);
  const { people } = await server.get('/api/shop');
  const entries = [];
  for (let index = 0; index < count; index += 1) {
    const body = { id: newId(), by: people[0].name, note };
    const { status, value } = await server.send('POST', `/api/machines/${machine}/tasks/${tasks[0].key}/done`, body);
    assert.equal(status, 200, JSON.stringify(value));
    entries.push(value);
  }
  return entries;
}

async function openBook(page, query = '') {
  await page.goto(`/logbook${query}`);
  await rows(page).first().waitFor();
}

test('Logbook: the latest stands first, filters narrow it and stay in the address', async ({ page, server }) => {
  const [first, second] = await enterDone(server, 'm05', 2, 'belt Quetschfalte seen');
  await openBook(page);
  assert.equal(await rows(page).first().getAttribute('data-entry'), second.id);
  await page.locator('#book-machine').selectOption('m05');
  await page.locator('#book-kind').selectOption('task done');
  await page.locator('#book-text').fill('QUETSCHFALTE');
  const asked = /machine=m05.*kind=task\+done.*text=QUETSCHFALTE/;
  await until('only the two are left', async () => asked.test(page.url()) && (await rows(page).count()) === 2);
  await page.reload();
  await rows(page).first().waitFor();
  assert.deepEqual(await rows(page).evaluateAll((all) => all.map((row) => row.dataset.entry)), [second.id, first.id]);
  const csv = await page.getByRole('link', { name: 'Save these as CSV' }).getAttribute('href');
  const text = await (await server.ask(csv)).text();
  assert.equal(text.trim().split('\n').length, 3, text);
  await page.locator('#book-to').fill('2001-01-01');
  await page.getByText('No entry fits').waitFor();
  await page.locator('.none').getByRole('button', { name: 'Show everything' }).click();
  await until('all are back', async () => (await rows(page).count()) >= 2);
  assert.equal(new URL(page.url()).search, '');
});

test('Logbook: more by a button, none twice and none left out', async ({ page, server }) => {
  await enterDone(server, 'm06', 130, 'many');
  await openBook(page, '?machine=m06&text=many');
  assert.equal(await rows(page).count(), 100);
  await page.getByRole('button', { name: 'Show older entries' }).click();
  await until('the rest is there', async () => (await rows(page).count()) === 130);
  const ids = await rows(page).evaluateAll((all) => all.map((row) => row.dataset.entry));
  assert.equal(new Set(ids).size, 130);
  assert.equal(await page.getByRole('button', { name: 'Show older entries' }).count(), 0);
});

test('Logbook: an entry opens to all it holds, and is corrected by a new one; both point at each other', async ({
  page,
  server,
}) => {
  const [entry] = await enterDone(server, 'm07', 1);
  await openBook(page, '?machine=m07');
  const person = await choosePerson(page);
  await rowOf(page, entry.id).locator('button.row').click();
  const text = await rowOf(page, entry.id).innerText();
  for (const part of [entry.by, entry.id, `number ${entry.ordinal}`, 'looked well'])
    assert.ok(text.includes(part), text);
  await rowOf(page, entry.id).locator('summary').click();
  const counters = await rowOf(page, entry.id).locator('details tbody tr').count();
  assert.equal(counters, Object.keys(entry.counters).length);
  await page.getByRole('button', { name: 'Correct this entry' }).click();
  await page.getByRole('button', { name: 'Enter the correction' }).click();
  await page.locator('.wrong').getByText('Write something').waitFor();
  await page.locator(`[id="correct-${entry.id}"]`).fill('It was the other belt.');
  await page.getByRole('button', { name: 'Enter the correction' }).click();
  await page.locator('[data-kind="correction"]').waitFor();
  const { entries } = await server.get('/api/logbook?machine=m07');
  assert.equal(entries[0].corrects, entry.id);
  assert.equal(entries[0].by, person);
  assert.match(entries[0].says + (entries[0].note ?? ''), /It was the other belt\./);
  assert.match(await rowOf(page, entry.id).innerText(), /corrected/);
  await rows(page).first().locator('button.row').click();
  await rows(page).first().getByRole('button', { name: 'show that entry' }).click();
  const focused = () => page.evaluate(() => document.activeElement.closest('[data-entry]')?.dataset.entry);
  await until('the corrected one has the focus', async () => (await focused()) === entry.id);
});

test('Logbook: what others enter meanwhile is offered, and does not push the page', async ({ page, server }) => {
  await enterDone(server, 'm08', 1);
  await openBook(page, '?machine=m08');
  const before = await rows(page).count();
  await page.locator('#me-top').waitFor();
  const [entry] = await enterDone(server, 'm08', 1);
  await page.getByText('There are newer entries.').waitFor();
  assert.equal(await rows(page).count(), before);
  await page.getByRole('button', { name: 'Show them' }).click();
  await rowOf(page, entry.id).waitFor();
});

test('Logbook: prove it says how many hold together and shows the hash to be noted', async ({ page, server }) => {
  await enterDone(server, 'm05', 1);
  await openBook(page);
  await page.getByRole('button', { name: 'Prove it' }).click();
  await page.locator('.verdict').waitFor();
  const proof = await server.get('/api/logbook/proof');
  assert.deepEqual(proof.breaks, []);
  const said = (await page.locator('.verdict').innerText()).replace(/\s/g, '');
  assert.ok(said.startsWith(`${proof.entries}entr`), said);
  assert.match(await page.locator('#head-hash').inputValue(), /^[0-9a-f]{64}$/);
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await page.getByRole('button', { name: 'Copy the hash' }).click();
  await page.getByText('Copied.').waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.equal(copied, await page.locator('#head-hash').inputValue());
});

test('Logbook: a broken chain is said in words, each break', async ({ page, server }) => {
  await enterDone(server, 'm05', 1);
  const breaks = [
    { kind: 'altered', entry: 17, says: 'Entry 17 was altered.' },
    { kind: 'missing', entry: 20, says: 'Entries 20 to 22 are missing.' },
  ];
  await page.route('**/api/logbook/proof', (route) =>
    route.fulfill({ json: { entries: 40, head: 'ab'.repeat(32), breaks, photos_awaited: [] } }),
  );
  await openBook(page);
  await page.getByRole('button', { name: 'Prove it' }).click();
  const alert = page.locator('.proof [role="alert"]');
  await alert.getByText('Broken in 2 places, among 40 entries').waitFor();
  for (const { says } of breaks) assert.ok((await alert.innerText()).includes(says));
  assert.equal(await page.locator('.verdict', { hasText: 'hold' }).count(), 0);
});

/** The answer of the logbook with an entry that has all that an entry can have. */
async function withFullEntry(page, server) {
  const [entry] = await enterDone(server, 'm05', 1);
  const happened = new Date(Date.parse(entry.at) - 3 * 3_600_000).toISOString();
  const full = {
    ...entry,
    ...{ id: newId(), kind: 'check answered', happened_at: happened, device_at: happened, device_off_s: 172_800 },
    ...{ rhythm: 'shift', walk: newId(), stray: 'The check is not there any more.', corrects: newId() },
    answers: [
      { check: 'a', kind: 'reading', title: 'Coolant', value: 6.5, unit: '%', state: 'action', says: 'Below 7 %.' },
      { check: 'b', kind: 'top up', title: 'Way oil', answer: 'as it should be', quantity: 0.5, quantity_unit: 'l' },
      { check: 'c', kind: 'look', title: 'Leaks', answer: 'not so', note: 'Drip below the pump' },
    ],
    photos: [],
  };
  const waiting = { ...full, id: newId(), kind: 'task done', answers: [] };
  await page.route('**/api/logbook?*', (route) =>
    route.fulfill({ json: { entries: [full, waiting, entry], more: true, strays: 2 } }),
  );
  await page.route('**/api/logbook', (route) =>
    route.fulfill({ json: { entries: [full, waiting, entry], more: true, strays: 2 } }),
  );
  return full;
}

async function openFull(page, server) {
  const full = await withFullEntry(page, server);
  await openBook(page);
  await rowOf(page, full.id).locator('button.row').click();
  return full;
}

test('Logbook: late, clock off, judged answers and what waits for the lead are said', async ({ page, server }) => {
  const full = await openFull(page, server);
  const text = await rowOf(page, full.id).innerText();
  for (const part of [
    '3 h late',
    'clock off',
    '2 days ahead',
    'beyond the action limit',
    'Below 7 %.',
    '6.5\u00a0%',
    '0.5\u00a0l',
  ])
    assert.ok(text.includes(part), `${part}: ${text}`);
  assert.match(text, /waits for the lead.*The check is not there any more/);
  const strays = page.locator('.strays');
  assert.match(await strays.innerText(), /2 entries wait for the lead/);
  await strays.click();
  assert.match(page.url(), /stray=yes/);
  await page.getByText('It counts for nothing until').waitFor();
});

async function visit({ page, server }, isPhone) {
  await openFull(page, server);
  await page.getByRole('button', { name: /^(Prove it|Nachprüfen)$/ }).click();
  await page.locator('#head-hash').waitFor();
  await page.getByRole('button', { name: /^(Correct this entry|Diesen Eintrag berichtigen)$/ }).click();
  await page.locator('details').evaluateAll((all) => all.forEach((one) => (one.open = true)));
  if (isPhone) await measure(page);
  await expectClean(page, 'logbook');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const context of [
    { colorScheme: 'light' },
    { colorScheme: 'dark', locale: 'de-DE' },
    { forcedColors: 'active' },
  ])
    test(
      `Logbook: no finding, and on a phone large and apart, ${place}, ${Object.values(context)[0]}`,
      (ground) => visit(ground, place === 'phone'),
      { place: options, context },
    );

test('Logbook: fits 320 px', (ground) => visit(ground, true), {
  place: { ...PHONE, viewport: { width: 320, height: 640 } },
});

test('Logbook: printed it has the entries and none of the controls', async ({ page, server }) => {
  await enterDone(server, 'm05', 1);
  await openBook(page, '?machine=m05');
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('#book-machine').isVisible(), false);
  assert.equal(await page.getByRole('button', { name: 'Prove it' }).isVisible(), false);
  assert.ok(await rows(page).first().locator('.says').isVisible());
});
