import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';
import { test, until } from './suite.mjs';

const PIXEL = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
  'base64',
);
const DAY_MS = 86_400_000;
const dayFromNow = (days) => new Date(Date.now() + days * DAY_MS).toISOString().slice(0, 10);
const findingOf = async (server, id) => (await server.get(`/api/findings/${id}`)).finding;
const cardOf = (page, id) => page.locator(`[data-finding="${id}"]`);

async function makeFinding(server, machine, what, more = {}) {
  const { people } = await server.get('/api/shop');
  const body = { id: newId(), by: people[0].name, what, severity: 'watch', ...more };
  const { status, value } = await server.send('POST', `/api/machines/${machine}/findings`, body);
  assert.equal(status, 200, JSON.stringify(value));
  return value;
}

async function openFindings(page, query = '') {
  await page.goto(`/findings${query}`);
  await page.locator('#finding-machine option').nth(1).waitFor({ state: 'attached' });
}

async function openFinding(page, id) {
  await page.goto(`/finding/${id}`);
  await page.locator('#history-title').waitFor();
}

test('Findings: nobody’s stand on top, the most severe first, overdue by a word; one press takes it', async ({
  page,
  server,
}) => {
  const { people } = await server.get('/api/shop');
  const owner = people[1].name;
  const mild = await makeFinding(server, 'm13', 'Lamp flickers');
  const late = await makeFinding(server, 'm13', 'Oil below the pump', { owner, due_on: dayFromNow(-3) });
  const severe = await makeFinding(server, 'm13', 'Door does not lock', { severity: 'stop the machine', owner });
  await openFindings(page, '?machine=m13');
  const person = await choosePerson(page);
  const ids = () => page.locator('[data-finding]').evaluateAll((all) => all.map((one) => one.dataset.finding));
  await until('all are there', async () => (await ids()).length === 3);
  assert.deepEqual(await ids(), [mild.id, severe.id, late.id]);
  assert.match(await cardOf(page, late.id).innerText(), /overdue since/);
  assert.ok(await cardOf(page, late.id).locator('.late .mark').isVisible());
  assert.doesNotMatch(await cardOf(page, severe.id).innerText(), /overdue/);
  await cardOf(page, mild.id).getByRole('button', { name: 'I take it' }).click();
  await until('it is taken', async () => (await findingOf(server, mild.id)).owner === person);
  await until('the list says so', async () =>
    (await cardOf(page, mild.id).innerText()).includes(`${person} takes care`),
  );
  await page.locator('#finding-owner').selectOption(owner);
  await until('only theirs are left', async () => (await ids()).length === 2);
  assert.match(page.url(), /owner=/);
});

test('Findings: the words of one that is being written outlive the tab, and go with it once it is written', async ({
  page,
}) => {
  await page.goto('/new-finding?machine=m15');
  await choosePerson(page);
  await page.locator('#new-what').fill('The cover of the conveyor rattles');
  await page.getByRole('radio', { name: 'watch' }).check({ force: true });
  await page.reload();
  await until('the words are there', async () => /rattles/.test(await page.locator('#new-what').inputValue()));
  assert.ok(await page.getByRole('radio', { name: 'watch' }).isChecked());
  await page.goto('/new-finding?machine=m16');
  assert.equal(await page.locator('#new-what').inputValue(), '', 'another machine has words of its own');
  await page.goto('/new-finding?machine=m15');
  await page.locator('form .main').click();
  await page.locator('#history-title').waitFor();
  await page.goto('/new-finding?machine=m15');
  assert.equal(await page.locator('#new-what').inputValue(), '');
});

test('Findings: one out of the blue, with photo, day and task; then it has a page', async ({ page, server }) => {
  const { tasks } = await server.get('/api/machines/m14');
  await page.goto('/machine/m14');
  await page.locator('section#findings').getByRole('link', { name: 'Write down a finding' }).click();
  await page.locator('#new-task option').nth(1).waitFor({ state: 'attached' });
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.locator('#new-what-wrong').waitFor();
  const person = await choosePerson(page);
  await page.locator('#new-what').fill('Belt squeals');
  await page.getByLabel('before next shift').check({ force: true });
  await page.locator('#new-photo').setInputFiles({ name: 'belt.png', mimeType: 'image/png', buffer: PIXEL });
  await page.getByRole('button', { name: 'Remove photo 1' }).waitFor();
  await page.locator('#new-due').fill(dayFromNow(7));
  await page.locator('#new-task').selectOption(tasks[0].key);
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.locator('#history-title').waitFor();
  const id = new URL(page.url()).pathname.split('/').at(-1);
  const finding = await findingOf(server, id);
  assert.deepEqual(
    [finding.machine, finding.what, finding.severity, finding.due_on, finding.task, finding.by, finding.photos.length],
    ['m14', 'Belt squeals', 'before next shift', dayFromNow(7), tasks[0].key, person, 1],
  );
  await until('the photo is shown', () => page.evaluate(() => document.querySelector('dl ~ ul img')?.naturalWidth > 0));
  await page.goto('/machine/m14');
  await page.locator('section#findings').getByText('Belt squeals').waitFor();
  await page.goto('/');
  await until('the Floor says it', async () =>
    /before next shift/.test(await page.locator('[data-machine="m14"]').innerText()),
  );
});

test('Findings: from a task its point and the task come along', async ({ page, server }) => {
  const { tasks } = await server.get('/api/machines/m15');
  const task = tasks.find((one) => one.point !== undefined);
  await page.goto(`/machine/m15?task=${encodeURIComponent(task.key)}`);
  await page
    .locator(`[data-task="${task.key}"]`)
    .getByRole('link', { name: 'Something is not as it should be' })
    .click();
  await until('the point is there', async () => (await page.locator('#new-point').inputValue()) === String(task.point));
  assert.equal(await page.locator('#new-task').inputValue(), task.key);
});

test('Findings: changed, settled with what was done, opened again; the history keeps all', async ({ page, server }) => {
  const { id } = await makeFinding(server, 'm16', 'Coolant too thin');
  const { people } = await server.get('/api/shop');
  await openFinding(page, id);
  await choosePerson(page);
  await page.getByRole('button', { name: 'Change owner' }).click();
  await page.getByRole('button', { name: 'Save the change' }).click();
  await page.getByText('Nothing is changed yet.').waitFor();
  await page.locator('#change-owner').selectOption(people[1].name);
  await page.locator('#change-due').fill(dayFromNow(2));
  await page.locator('#change-severity').selectOption('at the next stop');
  await page.getByRole('button', { name: 'Save the change' }).click();
  await until('it is changed', async () => (await findingOf(server, id)).owner === people[1].name);
  const changed = await findingOf(server, id);
  assert.deepEqual([changed.severity, changed.due_on], ['at the next stop', dayFromNow(2)]);
  await page.getByRole('button', { name: 'It is settled' }).click();
  await page.getByRole('button', { name: 'Settle it' }).click();
  await page.locator('#settle-wrong').waitFor();
  await page.locator('#settle').fill('Topped up with concentrate.');
  await page.getByRole('button', { name: 'Settle it' }).click();
  await until('it is settled', async () => (await findingOf(server, id)).state === 'settled');
  assert.equal((await findingOf(server, id)).done, 'Topped up with concentrate.');
  await page.getByRole('button', { name: 'Open it again' }).click();
  await page.locator('#reopen').fill('Thin again.');
  await page.getByRole('button', { name: 'Open it again' }).click();
  await until('it is open', async () => (await findingOf(server, id)).state === 'open');
  const { entries } = await server.get(`/api/findings/${id}`);
  assert.deepEqual(
    entries.map((one) => one.kind),
    ['finding made', 'finding changed', 'finding settled', 'finding reopened'],
  );
  await until('the history shows them', async () => (await page.locator('ol li .kind').count()) === 4);
});

test('Findings: "stop the machine" shows the caution and who decides, and nothing says that a machine is safe', async ({
  page,
  server,
}) => {
  const { id } = await makeFinding(server, 'm17', 'Smoke from the cabinet', { severity: 'stop the machine' });
  await openFinding(page, id);
  const care = await page.locator('.notice.care').innerText();
  assert.match(care, /stop the machine as you have been shown/);
  assert.match(care, /decided by the maintenance lead/);
  await page.getByRole('button', { name: 'Change owner' }).click();
  await page.locator('#change-severity').selectOption('watch');
  assert.equal(await page.locator('.notice.care').count(), 1);
  await page.goto('/new-finding?machine=m17');
  await page.getByLabel('stop the machine').check({ force: true });
  await page.locator('.notice.care').getByText('decided by').waitFor();
});

test('Findings: without a connection it is kept, said so, and sent once when the line is back', async ({
  page,
  server,
}) => {
  const { id } = await makeFinding(server, 'm18', 'Chips in the way cover');
  await openFindings(page, '?machine=m18');
  await cardOf(page, id).waitFor();
  const person = await choosePerson(page);
  await page.route('**/api/**', (route) => route.abort('internetdisconnected'));
  await cardOf(page, id).getByRole('button', { name: 'I take it' }).click();
  await cardOf(page, id).getByText('kept on this device').waitFor();
  assert.equal((await findingOf(server, id)).owner, null);
  await page.getByRole('link', { name: 'Write down a finding' }).click();
  await page.locator('#new-what').fill('Gauge glass is cracked');
  await page.getByLabel('watch').check({ force: true });
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByText('Kept on this device.').waitFor();
  assert.equal(await page.locator('#new-what').inputValue(), '');
  await page.unroute('**/api/**');
  await page.evaluate(() => window.dispatchEvent(new Event('online')));
  await until('both are with the server', async () => {
    const { findings } = await server.get('/api/findings?machine=m18');
    return findings.length === 2 && findings.some((one) => one.id === id && one.owner === person);
  });
});

async function visit({ page, server }, isPhone) {
  const { people } = await server.get('/api/shop');
  const severe = { severity: 'stop the machine', owner: people[1].name, due_on: dayFromNow(-2) };
  const { id } = await makeFinding(server, 'm19', 'Door does not lock', severe);
  await makeFinding(server, 'm19', 'Lamp flickers');
  await openFindings(page, '?machine=m19');
  await cardOf(page, id).waitFor();
  if (isPhone) await measure(page);
  await expectClean(page, 'findings');
  await openFinding(page, id);
  await page.locator('.deeds button').nth(1).click();
  await page.locator('#change-note').waitFor();
  if (isPhone) await measure(page);
  await expectClean(page, 'finding, change');
  await page.goto('/new-finding?machine=m19');
  await page.locator('#new-task option').nth(1).waitFor({ state: 'attached' });
  await page.locator('[value="stop the machine"]').check({ force: true });
  await page.locator('form .main').click();
  await page.locator('#new-what-wrong').waitFor();
  if (isPhone) await measure(page);
  await expectClean(page, 'new finding');
  const main = await page.locator('form .main').boundingBox();
  if (isPhone) assert.ok(main.height >= 96 && main.width > 300, `${main.width} x ${main.height}`);
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const context of [
    { colorScheme: 'light' },
    { colorScheme: 'dark', locale: 'de-DE' },
    { forcedColors: 'active' },
  ])
    test(
      `Findings: no finding of the rules, and on a phone large and apart, ${place}, ${Object.values(context)[0]}`,
      (ground) => visit(ground, place === 'phone'),
      { place: options, context },
    );

test('Findings: printed they stand without controls', async ({ page, server }) => {
  const { id } = await makeFinding(server, 'm20', 'Lamp flickers');
  await openFindings(page, '?machine=m20');
  await cardOf(page, id).waitFor();
  await page.emulateMedia({ media: 'print' });
  assert.ok(await cardOf(page, id).locator('.what').isVisible());
  assert.equal(await page.locator('#finding-machine').isVisible(), false);
  assert.equal(await page.getByRole('button', { name: 'I take it' }).isVisible(), false);
});
