import assert from 'node:assert/strict';
import AxeBuilder from '@axe-core/playwright';
import { choosePerson, DESK, PHONE } from './chromium.mjs';
import { findTask, loaded, openTask } from './scenes.mjs';
import { test } from './suite.mjs';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const Axe = AxeBuilder.default ?? AxeBuilder;

async function expectClean(page, where, part = 'html') {
  const { violations, passes } = await new Axe({ page }).include(part).withTags(RULES).analyze();
  assert.ok(passes.length > 3, 'the rules ran');
  const serious = violations.filter((one) => one.impact === 'serious' || one.impact === 'critical');
  const says = serious.map(
    (one) =>
      `${where}: ${one.id}: ${one.help}: ${one.nodes.map((node) => `${node.html.slice(0, 160)} ${node.any[0]?.message ?? ''}`).join(' | ')}`,
  );
  assert.deepEqual(says, []);
}

async function visitAll({ page, server }) {
  await page.goto('/');
  await loaded(page);
  await expectClean(page, 'floor');
  await page.locator('#find').fill('no such machine');
  await expectClean(page, 'floor, none');
  const { task } = await findTask(server, (one) => one.energy === 'isolated' && one.state !== 'overdue');
  const row = await openTask(page, task);
  await page.locator('.uplot canvas').waitFor();
  for (const summary of await page.locator('summary').all()) await summary.click();
  await expectClean(page, 'machine, task open');
  await row.locator('.done .main').click();
  await expectClean(page, 'machine, nobody chosen', '.done');
  await choosePerson(page);
  await row.locator('.done .main').click();
  await row.locator('.undo').waitFor();
  await expectClean(page, 'machine, done', '.done');
  await page.goto(`/machine/${task.machine}/new-task`);
  await page.locator('form').waitFor();
  await page.getByRole('button', { name: 'Add a part' }).click();
  await page.getByRole('button', { name: 'Save the task' }).click();
  await page.locator('.field .wrong').first().waitFor();
  await expectClean(page, 'form with errors');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const colorScheme of ['light', 'dark'])
    test(`Access: no serious finding on any page, ${place}, ${colorScheme}`, visitAll, {
      place: options,
      context: { colorScheme },
    });

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
