import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { choosePerson } from './people.mjs';
import { findTask, openTask } from './scenes.mjs';
import { test, until } from './suite.mjs';

test('Lives: a person moves an interval from Today on, and the logbook keeps why', async ({ page, server }) => {
  await page.goto('/today');
  await choosePerson(page);
  await page.locator('[data-item="interval"] a.button').first().click();
  await page.locator('#move-interval').waitFor();
  await expectClean(page, 'a part');
  await page.getByRole('button', { name: 'Move the interval' }).click();
  await page.locator('#move-why[aria-invalid="true"]').waitFor();
  const proposed = Number(await page.locator('#move-interval').inputValue());
  await page.locator('#move-interval').fill(String(proposed + 1));
  await until('the other interval is judged', async () => /a year/.test(await page.locator('.judged').innerText()));
  await page.locator('#move-why').fill('They fail before');
  await page.getByRole('button', { name: 'Move the interval' }).click();
  await until('it says so', async () => /Moved on/.test(await page.locator('.act').innerText()));
  const { entries } = await server.get('/api/logbook?kind=interval%20moved');
  assert.equal(entries[0].told.why, 'They fail before');
  assert.equal(entries[0].told.interval.to, proposed + 1);
  const [kind, task] = new URL(page.url()).pathname.split('/').slice(2);
  const { part } = await server.get(`/api/lives/${kind}/${task}`);
  assert.equal(part.interval, proposed + 1);
});

test(
  'Lives: whoever replaces a part says how it was found',
  async ({ page, server }) => {
    const { task } = await findTask(server, (one) => one.work === 'replace' && one.state !== 'overdue');
    await page.goto('/');
    await choosePerson(page);
    const row = await openTask(page, task);
    await row.getByRole('button', { name: 'worn', exact: true }).click();
    await expectClean(page, 'how it was found', '.done');
    await row.locator('.done .main').click();
    await row.locator('.undo').waitFor();
    const { entries } = await server.get(`/api/machines/${task.machine}`);
    assert.equal(entries.find((entry) => entry.task === task.key).doing.as_found, 'worn');
    await row.locator('.undo').click();
  },
  { place: PHONE },
);

test(
  'Lives: every part is listed, those worth moving first, on a phone as well',
  async ({ page, server }) => {
    const { parts } = await server.get('/api/lives');
    await page.goto('/lives');
    await page.locator('[data-part]').first().waitFor();
    await expectClean(page, 'lives');
    const first = await page.locator('[data-part]').first().getAttribute('data-part');
    assert.equal(first, `${parts[0].kind}/${parts[0].task}`);
    assert.equal(await page.locator('[data-part]').count(), parts.length);
  },
  { place: PHONE },
);

test('What if: years under another interval are played and compared, in words and in a table', async ({
  page,
  server,
}) => {
  const { parts } = await server.get('/api/lives');
  const part = parts.find(({ move, interval }) => move !== undefined && interval !== undefined);
  await page.goto(`/lives/${part.kind}/${part.task}`);
  const section = page.locator('[data-what-if]');
  await section.getByRole('button', { name: 'Play the years' }).click();
  await section.locator('.verdict').waitFor();
  assert.match(await section.locator('.verdict').innerText(), /costs/);
  assert.equal(await section.locator('tbody tr').count(), 5);
  assert.match(await section.innerText(), /years played with \d+/);
  await section.getByRole('textbox').fill('0');
  await section.getByRole('button', { name: 'Play the years' }).click();
  assert.match(await section.locator('.wrong').innerText(), /above/);
  await expectClean(page, 'what a year would come to', '[data-what-if]');
});
