import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const figure = (page, key) => page.locator(`[data-figure="${key}"]`);

/** The page of the present month, opened from the Logbook. */
async function openMonth(page) {
  await page.goto('/logbook');
  await page.locator('a[href="/month"]').click();
  await figure(page, 'availability').waitFor();
}

if (isReal) {
  test('Month: figures say what they mean and rest on, by keyboard, in English and German', async ({
    page,
    server,
  }) => {
    await openMonth(page);
    const { present, began } = (await server.get(`/api/months/${new Date().toISOString().slice(0, 7)}`)) ?? {};
    assert.equal(await page.locator('#month-choice').inputValue(), present);
    await figure(page, 'mtbf by iso 22400').locator('button').focus();
    await page.keyboard.press('Enter');
    const working = page.locator('.working');
    assert.match(await working.innerText(), /one more than the number of failures/);
    assert.match(await working.innerText(), /From memory/);
    await expectClean(page);
    await page.locator('#month-choice').selectOption(began);
    await until('the first month is shown', async () => page.url().includes(`month=${began}`));
    await page.locator('#language').selectOption('de');
    await until('the page is German', async () => /Kennzahl/.test(await page.locator('table').first().innerText()));
    assert.match(await working.innerText(), /Aus dem Gedächtnis/);
    const [pdf, book] = await page.locator('.files a').evaluateAll((all) => [all[0].href, all.at(-1).href]);
    for (const [address, begins] of [
      [pdf, '%PDF'],
      [book, 'PK'],
    ]) {
      assert.match(address, /language=de/);
      const bytes = Buffer.from(await (await server.ask(address.slice(server.url.length))).arrayBuffer());
      assert.equal(bytes.subarray(0, begins.length).toString(), begins);
    }
  });

  test(
    'Month: on a phone nothing sticks out; one machine shows its days; a month that is none is said',
    async ({ page }) => {
      const sticksOut = () => page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
      await page.goto('/month');
      await figure(page, 'availability').waitFor();
      assert.equal(await sticksOut(), false);
      await page.goto('/month?machine=m01');
      await figure(page, 'availability').waitFor();
      await figure(page, 'availability').locator('button').click();
      await page.locator('summary').first().click();
      assert.ok((await page.locator('details tbody tr').count()) >= 1);
      assert.equal(await sticksOut(), false);
      await expectClean(page);
      await page.goto('/month?month=2019-13');
      await page.locator('.trouble').first().waitFor();
      assert.match(await page.locator('main').innerText(), /ist kein Monat/);
    },
    { place: PHONE, context: { locale: 'de-DE' } },
  );
}
