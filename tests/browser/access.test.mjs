import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { findTask, loaded, openTask } from './scenes.mjs';
import { test } from './suite.mjs';

async function visitAll({ page, server }) {
  await page.goto('/');
  await loaded(page);
  await expectClean(page, 'floor');
  await page.locator('#find').fill('no such machine');
  await expectClean(page, 'floor, none');
  const { task } = await findTask(server, (one) => one.energy === 'isolated' && one.state !== 'overdue');
  const row = await openTask(page, task);
  await page.locator('.uplot canvas').waitFor();
  await page.locator('details').evaluateAll((all) => all.forEach((one) => (one.open = true)));
  await expectClean(page, 'machine, task open');
  await row.locator('.done .main').click();
  await row.locator('.undo').waitFor();
  await expectClean(page, 'machine, done', '.done');
  await page.goto(`/machine/${task.machine}/new-task`);
  await page.locator('form').waitFor();
  await page.getByRole('button', { name: 'Add a part' }).click();
  await page.getByRole('button', { name: 'Add a reading' }).click();
  await page.getByRole('button', { name: 'Save the task' }).click();
  await page.locator('.field .wrong').first().waitFor();
  await expectClean(page, 'form with errors');
}

// Each size once and each look once: what they do, they do apart from each other.
for (const [name, place, colorScheme] of [
  ['desk, light', DESK, 'light'],
  ['phone, dark', PHONE, 'dark'],
])
  test(`Access: no serious finding on any page, ${name}`, visitAll, { place, context: { colorScheme } });

test('Access: no serious finding with forced colours', visitAll, { context: { forcedColors: 'active' } });

test('Access: the look can be chosen, and stays', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  const ground = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const before = await ground();
  await page.locator('#look').selectOption('dark');
  assert.notEqual(await ground(), before);
  await page.reload();
  await loaded(page);
  assert.notEqual(await ground(), before);
});
