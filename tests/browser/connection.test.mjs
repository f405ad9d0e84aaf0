import assert from 'node:assert/strict';
import { loaded } from './scenes.mjs';
import { test, until } from './suite.mjs';
import { workerInCharge } from './walking.mjs';

test('Connection: the server dies and comes back; the page says so, says how old it is, and recovers', async ({
  page,
  server,
}) => {
  await page.goto('/');
  await loaded(page);
  await page.evaluate(() => (window.sameDocument = true));
  await server.stop();
  const lost = page.locator('p.lost');
  await lost.waitFor();
  await until('the age is told', async () => /What you see is [1-9]\d* s old/.test(await lost.innerText()));
  assert.equal(await page.locator('[data-machine]').count(), 24);
  await server.start();
  await until('it is connected again', async () => (await lost.count()) === 0, 30_000);
  const numbers = () => page.locator('[data-counter] .today').allInnerTexts();
  const before = (await numbers()).join();
  await until('numbers move again', async () => (await numbers()).join() !== before, 100_000);
  assert.equal(await page.evaluate(() => window.sameDocument), true);
});

test('Connection: Done while the server is away is kept, survives the tab, and is sent when it is back', async ({
  page,
  server,
}) => {
  await page.goto('/machine/m05');
  await workerInCharge(page);
  await page.locator('[data-task] button').first().click();
  await server.stop();
  await page.locator('.done .main').click();
  await page.locator('.done .kept').waitFor();
  await page.reload();
  await until('the device still has it', async () => /1 not sent/.test(await page.locator('.unsent').innerText()));
  await server.start();
  await until('everything is sent', async () => (await page.locator('.unsent').count()) === 0, 90_000);
});

test('Connection: a machine or page that is not there is said plainly', async ({ page }) => {
  await page.goto('/machine/m99');
  await page.locator('.notice.trouble').waitFor();
  assert.match(await page.locator('h1').innerText(), /cannot be shown/);
  await page.goto('/nonsense/at/all');
  await until('the page says so', async () => /no such page/.test(await page.locator('h1').innerText()));
});

test('Connection: the top line says that only this computer can reach the server', async ({ page, server }) => {
  await page.goto('/');
  await loaded(page);
  const { loopback_only } = await server.get('/api/shop');
  assert.equal(await page.getByText('Only this computer can reach this server').count(), loopback_only ? 1 : 0);
});
