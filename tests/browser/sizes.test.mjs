import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { findTask, loaded, openTask } from './scenes.mjs';
import { test } from './suite.mjs';

const MAIN_PX = 96;
const PATHS = [
  ...['/', '/machine/m01', '/machine/m01/new-task', '/machine/m01/change-plan'],
  ...['/findings', '/new-finding', '/logbook', '/labels', '/scan'],
];

test(
  'Phone: controls of the Floor are large and apart',
  async ({ page }) => {
    await page.goto('/');
    await loaded(page);
    await measure(page);
  },
  { place: PHONE },
);

test(
  'Phone: controls of a machine and of an open task are large and apart; Done is the largest',
  async ({ page, server }) => {
    const { task } = await findTask(server, (one) => one.energy === 'isolated');
    const row = await openTask(page, task);
    await measure(page);
    await choosePerson(page);
    const [button, box] = [await row.locator('.done .main').boundingBox(), await row.boundingBox()];
    assert.ok(button.height >= MAIN_PX, `Done is ${button.height} px high`);
    assert.ok(button.width >= box.width - 30, `Done is ${button.width} of ${box.width} px wide`);
    // Within its own box: the page may scroll meanwhile.
    const before = await row.locator('.done').boundingBox();
    await row.locator('.done .main').click();
    await row.locator('.undo').waitFor();
    const now = await row.locator('.done').boundingBox();
    const undo = await row.locator('.undo').boundingBox();
    assert.ok(undo.y - now.y >= button.y - before.y + button.height, 'Undo stands where Done was');
    await measure(page);
  },
  { place: PHONE },
);

test(
  'Phone: controls of the form are large and apart',
  async ({ page }) => {
    await page.goto('/machine/m01/new-task');
    await page.locator('form').waitFor();
    await page.getByRole('button', { name: 'Add a trigger' }).click();
    await page.getByRole('button', { name: 'Add a part' }).click();
    await page.getByRole('button', { name: 'Add a reading' }).click();
    await page.locator('#work').selectOption('top up');
    await measure(page);
    const save = await page.getByRole('button', { name: 'Save the task' }).boundingBox();
    assert.ok(save.height >= MAIN_PX);
  },
  { place: PHONE },
);

test(
  'Phone: the page begins near the top; the choice of pages opens by one press, and is folded again on the next page',
  async ({ page }) => {
    await page.goto('/');
    await loaded(page);
    const title = await page.locator('h1').boundingBox();
    assert.ok(title.y < PHONE.viewport.height / 5, `the title stands at ${title.y} px`);
    const link = page.locator('header nav a[href="/logbook"]');
    assert.equal(await link.isVisible(), false);
    await page.locator('header .menu').click();
    await measure(page);
    await link.click();
    await page.locator('h1', { hasText: 'Logbook' }).waitFor();
    assert.equal(await link.isVisible(), false);
    assert.equal(await page.locator('header .menu').getAttribute('aria-expanded'), 'false');
  },
  { place: PHONE },
);

test(
  'Phone: nothing is cut off at 320 px',
  async ({ page }) => {
    for (const path of PATHS) {
      await page.goto(path);
      await page.locator('#me-top').waitFor();
      const wide = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      assert.ok(wide <= 0, `${path} is ${wide} px too wide`);
    }
  },
  { place: { ...PHONE, viewport: { width: 320, height: 640 } } },
);
