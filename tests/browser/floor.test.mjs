import assert from 'node:assert/strict';
import { loaded } from './scenes.mjs';
import { test, until } from './suite.mjs';

test('Floor: shows 24 machines, each with what it does, five counters, nearest task and feed', async ({
  page,
  server,
}) => {
  await page.goto('/');
  await loaded(page);
  const rows = page.locator('[data-machine]');
  assert.equal(await rows.count(), 24);
  const { machines } = await server.get('/api/floor');
  for (const machine of machines) {
    const text = await page.locator(`[data-machine="${machine.key}"]`).innerText();
    assert.ok(text.includes(machine.name), text);
    if (machine.nearest) assert.ok(text.includes(machine.nearest.title), text);
  }
  assert.equal(await rows.first().locator('[data-counter]').count(), 5);
  assert.match(await rows.first().locator('[data-counter="powered"]').innerText(), /\d\.\d\d\sh/);
});

test('Floor: a number moves without a reload and nothing else does', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  const boxes = () => page.locator('[data-machine]').evaluateAll((rows) => rows.map((row) => row.offsetTop));
  const numbers = () => page.locator('[data-counter] .today').allInnerTexts();
  await page.evaluate(() => (window.sameDocument = true));
  const [before, places] = [await numbers(), await boxes()];
  await until('a counter moves', async () => (await numbers()).join() !== before.join(), 100_000);
  assert.equal(await page.evaluate(() => window.sameDocument), true);
  assert.deepEqual(await boxes(), places);
});

test('Floor: each state shows as many machines as it says; search and cell narrow; the address keeps it', async ({
  page,
}) => {
  await page.goto('/');
  await loaded(page);
  const rows = page.locator('[data-machine]');
  for (const button of await page.locator('.states button').all()) {
    const count = Number((await button.locator('.count').innerText()).trim());
    await button.click();
    assert.equal(await rows.count(), count);
    assert.equal(await button.getAttribute('aria-pressed'), 'true');
    await button.click();
  }
  const name = await rows.nth(3).locator('.name a').innerText();
  await page.locator('#find').fill(name.toUpperCase());
  await until('one machine is left', async () => (await rows.count()) === 1);
  assert.match(page.url(), /find=/);
  await page.reload();
  await loaded(page);
  assert.equal(await rows.count(), 1);
  await page.locator('#find').fill('no such machine');
  await page.getByRole('button', { name: 'Show all machines' }).click();
  assert.equal(await rows.count(), 24);
  await page.locator('#cell').selectOption({ index: 1 });
  const inCell = await rows.count();
  assert.ok(inCell > 0 && inCell < 24);
});

test('Floor: leads to a machine and its nearest task, and Back leads back', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  const row = page.locator('[data-machine]').first();
  const title = await row.locator('.task-title').innerText();
  await row.locator('a.task').click();
  await page.locator('.done .main').waitFor();
  assert.ok((await page.locator('[data-task] .open, li.open').first().innerText()).includes(title));
  await page.goBack();
  await loaded(page);
  await row.locator('.name a').click();
  await page.locator('#tasks-title').waitFor();
});
