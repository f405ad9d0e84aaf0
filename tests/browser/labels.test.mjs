import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const BASE = 'http://shop.example:8470';
const link = (page) => page.locator('a.main');
const wrongOf = (page, field) => page.locator(`[id="${field}-wrong"]`);

async function openLabels(page, query = '') {
  await page.goto(`/labels${query}`);
  await page.locator('svg.page text').first().waitFor();
  await page.locator('#base').fill(BASE);
}

async function pdfOf(page, server) {
  const response = await server.ask(await link(page).getAttribute('href'));
  assert.equal(response.status, 200, await response.clone().text());
  assert.equal(response.headers.get('content-type'), 'application/pdf');
  return Buffer.from(await response.arrayBuffer()).toString('latin1');
}

/** How many pages a PDF has, by its page tree. */
const pagesIn = (pdf) => Number(/\/Type \/Pages[\s\S]*?\/Count (\d+)/.exec(pdf)?.[1]);

test('Labels: proposes this page’s address, and says that only this computer reaches it', async ({ page, server }) => {
  await page.goto('/labels');
  await page.locator('svg.page text').first().waitFor();
  assert.equal(await page.locator('#base').inputValue(), server.url);
  await page.locator('.notice.care').waitFor();
  await page.locator('#base').fill(BASE);
  assert.equal(await page.locator('.notice.care').count(), 0);
  await page.locator('#base').fill('shop');
  await wrongOf(page, 'base').waitFor();
  assert.equal(await link(page).count(), 0);
});

test('Labels: the chosen machines on the sheet as it is drawn', async ({ page, server }) => {
  await openLabels(page);
  assert.equal(await page.locator('svg.page .printed').count(), 24);
  await page.getByRole('button', { name: 'None' }).click();
  await page.getByText('Choose a machine at least.').waitFor();
  await page.getByRole('button', { name: /m03$/ }).click();
  await page.getByRole('button', { name: /m01$/ }).click();
  await page.locator('#first_label').fill('5');
  await until('four are used up', async () => (await page.locator('svg.page .used').count()) === 4);
  assert.equal(await page.locator('svg.page .printed').count(), 2);
  const query = new URL(await link(page).getAttribute('href'), server.url).searchParams;
  assert.deepEqual([query.get('machines'), query.get('first_label'), query.get('base')], ['m01,m03', '5', BASE]);
  const pdf = await pdfOf(page, server);
  if (isReal) assert.equal(pagesIn(pdf), 1);
});

test('Labels: from a machine’s page only its own, and one a page for a label printer', async ({ page, server }) => {
  await page.goto('/machine/m04');
  await page.getByRole('link', { name: 'Print its label' }).click();
  await page.locator('svg.page text').first().waitFor();
  await page.locator('#base').fill(BASE);
  assert.equal(await page.locator('svg.page .printed').count(), 1);
  await page.getByRole('button', { name: 'a label printer, one a page' }).click();
  await page.locator('#roll_width_mm').fill('57,5');
  const query = new URL(await link(page).getAttribute('href'), server.url).searchParams;
  assert.deepEqual(Object.fromEntries(query), {
    ...{ base: BASE, machines: 'm04', layout: 'single', label_width_mm: '57.5', label_height_mm: '40' },
  });
  await page.getByRole('button', { name: 'All', exact: true }).click();
  const pdf = await pdfOf(page, server);
  if (isReal) assert.equal(pagesIn(pdf), 24);
});

test('Labels: numbers that do not fit are refused beside their field, and nothing can be opened', async ({ page }) => {
  await openLabels(page);
  for (const [field, text, wrong, says] of [
    ['page_width_mm', '200', 'columns', /need 203 mm, and the page has 200 mm/],
    ['pitch_x_mm', '60', 'pitch_x_mm', /overlap: they are 64 mm/],
    ['label_height_mm', '12', 'label_height_mm', /at least 20/],
    ['margin_top_mm', '1,250', 'margin_top_mm', /two ways/],
    ['first_label', '25', 'first_label', /at most 24/],
  ]) {
    const before = await page.locator(`#${field}`).inputValue();
    await page.locator(`#${field}`).fill(text);
    assert.match(await wrongOf(page, wrong).innerText(), says);
    assert.equal(await link(page).count(), 0);
    await page.locator('button.main').click();
    assert.equal(await page.evaluate(() => document.activeElement.id), wrong);
    await page.locator(`#${field}`).fill(before);
    await link(page).waitFor();
  }
});

if (isReal)
  test('Labels: what only the server knows is said too: a code too small to be read', async ({ page }) => {
    await openLabels(page);
    await page.getByRole('button', { name: 'a label printer, one a page' }).click();
    await page.locator('#base').fill(`http://${'long-name.'.repeat(12)}example:8470`);
    await page.locator('#roll_width_mm').fill('20');
    await page.locator('#roll_height_mm').fill('20');
    await page.getByText('The server says:').waitFor();
    // It stays said while the machines' numbers move.
    for (const end = Date.now() + 3000; Date.now() < end; await page.waitForTimeout(50))
      assert.equal(await link(page).count(), 0);
  });

test('Labels: the device remembers the sheet, not the address', async ({ page, server }) => {
  await openLabels(page);
  await page.locator('#rows').fill('7');
  await page.locator('#pitch_y_mm').fill('38,1');
  await page.reload();
  await page.locator('#rows').waitFor();
  assert.equal(await page.locator('#rows').inputValue(), '7');
  assert.equal(await page.locator('#pitch_y_mm').inputValue(), '38,1');
  assert.equal(await page.locator('#base').inputValue(), server.url);
  await page.getByRole('button', { name: 'The numbers as at first' }).click();
  assert.equal(await page.locator('#rows').inputValue(), '8');
});

async function visit({ page }, isPhone) {
  await openLabels(page);
  await page.locator('#base').fill('http://127.0.0.1:8470');
  await page.locator('details').evaluateAll((all) => all.forEach((one) => (one.open = true)));
  await page.locator('#first_label').fill('3');
  if (isPhone) await measure(page);
  await expectClean(page, 'labels');
  await page.locator('#rows').fill('9');
  if (isPhone) await measure(page);
  await expectClean(page, 'labels, refused');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const context of [
    { colorScheme: 'light' },
    { colorScheme: 'dark', locale: 'de-DE' },
    { forcedColors: 'active' },
  ])
    test(
      `Labels: no finding, and on a phone large and apart, ${place}, ${Object.values(context)[0]}`,
      (ground) => visit(ground, place === 'phone'),
      { place: options, context },
    );
