import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { findTask, loaded, openTask } from './scenes.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const GERMAN = { locale: 'de-DE' };
const heading = (page) => page.locator('h1').innerText();

test('Language: the device decides until a person does, and the choice stays', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  assert.equal(await heading(page), 'Floor');
  await page.locator('#language').selectOption('de');
  await until('it is German at once', async () => (await heading(page)) === 'Halle');
  assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
  await page.reload();
  await loaded(page);
  assert.equal(await heading(page), 'Halle');
  await page.locator('#language').selectOption('en');
  await until('it is English again', async () => (await heading(page)) === 'Floor');
});

test('Language: what was typed stays when the language changes', async ({ page }) => {
  await page.goto('/machine/m01/new-task');
  await page.locator('#title').fill('Lampe reinigen');
  await page.locator('#language').selectOption('de');
  await page.getByRole('button', { name: 'Aufgabe speichern' }).waitFor();
  assert.equal(await page.locator('#title').inputValue(), 'Lampe reinigen');
});

test(
  'Language: German numbers have a comma',
  async ({ page }) => {
    await page.goto('/');
    await loaded(page);
    for (const text of await page.locator('[data-counter] .total').allInnerTexts())
      assert.match(text, /^[\d\s]+,\d\sh$/);
  },
  { context: GERMAN },
);

test(
  'Language: what the server says is said in German',
  async ({ page, server }) => {
    const { kinds } = await server.get('/api/shop');
    await page.goto('/');
    await loaded(page);
    const floor = await page.locator('main').innerText();
    assert.ok(kinds.some((kind) => floor.includes(kind.title_de)));
    assert.deepEqual(
      kinds.filter((kind) => floor.includes(kind.title)).map((kind) => kind.title),
      [],
    );
    await page.goto('/machine/m01');
    const counter = page.locator('[data-counter="operating"]');
    await counter.locator('summary').click();
    await counter.getByText('Ein Programm läuft').waitFor();
    if (!isReal) return;
    await page.goto('/logbook');
    await page.locator('[data-entry]').first().waitFor();
    const says = await page.locator('[data-entry] .says > :first-child').allInnerTexts();
    assert.ok(says.length > 20);
    const english = /: done$|not so|as (they|it) should be|round begun|finding \(|settled|limit|no limits|owner/;
    assert.deepEqual(
      says.filter((sentence) => english.test(sentence)),
      [],
    );
  },
  { context: GERMAN },
);

/** Texts that are wider than the box that cuts or carries them. */
function spilled(page) {
  return page.locator('button, .button, select, .state, .word, th, dt, dd, label, h1, h2, h3').evaluateAll((elements) =>
    elements
      .filter((element) => element.checkVisibility() && element.scrollWidth > element.clientWidth + 1)
      .filter((element) => getComputedStyle(element).display !== 'inline')
      .map((element) => `${element.tagName}.${element.className} "${element.textContent.trim().slice(0, 40)}"`),
  );
}

async function visit({ page, server }, isPhone) {
  const look = async (where) => {
    assert.equal(await page.evaluate(() => document.documentElement.lang), 'de');
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${where} is ${wide} px too wide`);
    assert.deepEqual(await spilled(page), [], where);
    if (isPhone) await measure(page);
    await expectClean(page, where);
  };
  await page.goto('/');
  await loaded(page);
  await look('floor');
  const { task } = await findTask(server, (one) => one.energy === 'isolated');
  const row = await openTask(page, task);
  assert.match(await row.innerText(), /freischalten und gegen Wiedereinschalten sichern/);
  await look('machine, task open');
  await page.goto('/machine/m01/new-task');
  await page.locator('form').waitFor();
  await look('form');
}

test('Language: German fits a phone, and no finding', (ground) => visit(ground, true), {
  place: PHONE,
  context: GERMAN,
});
test('Language: German fits a desk, and no finding', (ground) => visit(ground, false), {
  place: DESK,
  context: GERMAN,
});
test('Language: German fits 320 px', (ground) => visit(ground, true), {
  place: { ...PHONE, viewport: { width: 320, height: 640 } },
  context: GERMAN,
});
