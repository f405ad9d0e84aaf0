import assert from 'node:assert/strict';
import { loaded } from './scenes.mjs';
import { test, until } from './suite.mjs';

const TABS_MAX = 250;

/** Presses Tab until the element with the focus fits; each stop on the way must be seen to have the focus. */
async function tabTo(page, what, fits) {
  for (let count = 0; count < TABS_MAX; count += 1) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate((source) => {
      const focused = document.activeElement;
      const style = getComputedStyle(focused);
      const isSeen = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
      return {
        fits: new Function('element', `return ${source}`)(focused),
        isSeen,
        text: focused.outerHTML.slice(0, 120),
      };
    }, fits);
    if (found.text.startsWith('<body')) continue;
    assert.ok(found.isSeen, `the focus is not seen on ${found.text}`);
    if (found.fits) return;
  }
  throw new Error(`${what} was not reached by ${TABS_MAX} tabs`);
}

test('Keyboard: from the Floor to Done and Undo without a mouse', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  await tabTo(page, 'a machine', "element.closest('.name') !== null");
  await page.keyboard.press('Enter');
  await page.locator('#tasks-title').waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.tagName), 'H1');
  await tabTo(page, 'a task', "element.hasAttribute('aria-expanded')");
  await page.keyboard.press('Enter');
  await tabTo(page, 'Done', "element.matches('.done .main')");
  await page.keyboard.press('Enter');
  await page.locator('.saved:not(.kept)').waitFor();
  await tabTo(page, 'Undo', "element.matches('.undo')");
  await page.keyboard.press('Enter');
  await until('it is undone', async () => (await page.locator('.saved').innerText()).startsWith('Undone'));
});

test('Keyboard: the first stop skips to the content', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  await page.keyboard.press('Tab');
  assert.match(await page.evaluate(() => document.activeElement.textContent), /Skip to the content/);
  await page.keyboard.press('Enter');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'content');
});
