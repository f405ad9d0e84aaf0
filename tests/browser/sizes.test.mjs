import assert from 'node:assert/strict';
import { choosePerson, PHONE } from './chromium.mjs';
import { findTask, loaded, openTask } from './scenes.mjs';
import { test } from './suite.mjs';

const TOUCH_PX = 56;
const MAIN_PX = 96;
const GAP_PX = 12;

/** Every control that can be seen, with its place on the page. */
function controlsOf(page) {
  return page.locator('a, button, input, select, textarea, summary').evaluateAll((elements) =>
    elements
      .filter((element) => element.checkVisibility() && !element.matches('.skip'))
      .map((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return {
          x,
          y: y + scrollY,
          width,
          height,
          what: `${element.tagName} "${element.textContent.trim().slice(0, 30)}" ${element.id}`,
        };
      }),
  );
}

const apart = (a, b, side, length) => Math.max(b[side] - (a[side] + a[length]), a[side] - (b[side] + b[length]));

function tooNear(controls) {
  const found = [];
  controls.forEach((a, index) => {
    for (const b of controls.slice(index + 1)) {
      const gap = Math.max(apart(a, b, 'x', 'width'), apart(a, b, 'y', 'height'));
      if (gap < GAP_PX - 0.5) found.push(`${gap.toFixed(1)} px between ${a.what} and ${b.what}`);
    }
  });
  return found;
}

async function measure(page) {
  const controls = await controlsOf(page);
  assert.ok(controls.length > 3);
  const small = controls.filter((one) => one.height < TOUCH_PX - 0.5 || one.width < TOUCH_PX - 0.5);
  assert.deepEqual(
    small.map((one) => `${one.width.toFixed(0)} x ${one.height.toFixed(0)} ${one.what}`),
    [],
  );
  assert.deepEqual(tooNear(controls), []);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(wide <= 0, `the page is ${wide} px too wide`);
}

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
    await measure(page);
    const save = await page.getByRole('button', { name: 'Save the task' }).boundingBox();
    assert.ok(save.height >= MAIN_PX);
  },
  { place: PHONE },
);

test(
  'Phone: nothing is cut off at 320 px',
  async ({ page }) => {
    for (const path of ['/', '/machine/m01', '/machine/m01/new-task']) {
      await page.goto(path);
      await page.locator('#person-top option').nth(1).waitFor({ state: 'attached' });
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${path} is ${wide} px too wide`);
    }
  },
  { place: { ...PHONE, viewport: { width: 320, height: 640 } } },
);
