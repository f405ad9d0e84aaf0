import assert from 'node:assert/strict';
import { DESK, openChromium, openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { filmOf } from './film.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { loaded } from './scenes.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

/** Between two keys of a scanner at most: app/src/parts/typed_scan.ts. */
const BURST_MS = 200;
const LABEL = 'layout=single&label_width_mm=60&label_height_mm=40';
const pathOf = (page) => new URL(page.url()).pathname;
const arrives = (page, path) => until(`the page is ${path}`, () => pathOf(page) === path);

/** A browser whose camera shows a film. */
const openWithCamera = (film) =>
  openChromium([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-video-capture=${film}`,
  ]);

async function labelOf(server, machine, base) {
  const response = await server.ask(`/api/labels.pdf?base=${encodeURIComponent(base)}&machines=${machine}&${LABEL}`);
  assert.equal(response.status, 200);
  return Buffer.from(await response.arrayBuffer());
}

async function withCamera(film, server, act) {
  const browser = await openWithCamera(film);
  try {
    const page = await openPage(browser, server.url, PHONE, { permissions: ['camera'] });
    await act(page);
    assert.deepEqual(page.wrongs, []);
  } finally {
    await browser.close();
  }
}

if (isReal) {
  test('Scan: the camera reads our own label and opens its machine, whatever server it was printed for', async ({
    server,
  }) => {
    const film = filmOf(await labelOf(server, 'm07', 'http://shop.example:8470'));
    await withCamera(film, server, async (page) => {
      await page.goto('/scan');
      await arrives(page, '/machine/m07');
      await page.locator('#tasks-title').waitFor();
      await until('the camera is off', () => page.evaluate(() => document.querySelector('video') === null));
    });
  });
}

test('Scan: a picture without a code leads nowhere, and closing gives the camera back', async ({ server }) => {
  await withCamera(filmOf(null), server, async (page) => {
    await page.goto('/scan');
    await until('there is a picture', () => page.evaluate(() => document.querySelector('video')?.videoWidth > 0));
    const live = await page.evaluateHandle(() => document.querySelector('video').srcObject.getTracks()[0]);
    const frames = () =>
      page.evaluate(() => document.querySelector('video').getVideoPlaybackQuality().totalVideoFrames);
    await until('some pictures were looked at', async () => (await frames()) > 12);
    assert.equal(pathOf(page), '/scan');
    await expectClean(page, 'scan, camera open');
    await measure(page);
    await page.getByRole('button', { name: 'Close the camera' }).click();
    assert.equal(await live.evaluate((track) => track.readyState), 'ended');
    await page.getByRole('button', { name: 'Open the camera' }).waitFor();
  });
});

test('Scan: without a camera it says so, and the code in words leads there', async ({ page, server }) => {
  const machine = await server.get('/api/machines/m05');
  await page.goto('/scan');
  await page.locator('#me-top').waitFor();
  await page.getByRole('button', { name: 'Open the camera' }).click();
  await page.locator('.notice.trouble').waitFor();
  for (const text of ['M05', machine.name.toUpperCase(), 'https://old.example/machine/m05']) {
    await page.goto('/scan');
    await page.locator('#me-top').waitFor();
    await page.locator('#code').fill(text);
    await page.keyboard.press('Enter');
    await arrives(page, '/machine/m05');
  }
  await page.goto('/scan');
  await page.locator('#code').fill('m99');
  await page.getByRole('button', { name: 'To the machine' }).click();
  await page.locator('#code-wrong').waitFor();
  assert.match(await page.locator('#code-wrong').innerText(), /m99/);
  assert.equal(pathOf(page), '/scan');
});

test('Scan: without a secure context it says what is missing and what works all the same', async ({ page }) => {
  await page.addInitScript(() => Object.defineProperty(window, 'isSecureContext', { value: false }));
  await page.goto('/scan');
  await page.getByText('only over HTTPS').waitFor();
  assert.equal(await page.getByRole('button', { name: 'Open the camera' }).count(), 0);
  await page.locator('#code').waitFor();
});

/** Types as a scanner does: as fast as keys come, then Enter. */
async function scanKeys(page, text) {
  await page.evaluate((address) => {
    const places = { ':': ['Semicolon', true], '/': ['Slash', false], '.': ['Period', false] };
    const press = (key, code, shiftKey) =>
      document.activeElement.dispatchEvent(
        new KeyboardEvent('keydown', { key, code, shiftKey, bubbles: true, cancelable: true }),
      );
    for (const key of address) {
      const [code, shiftKey] = places[key] ?? [/\d/.test(key) ? `Digit${key}` : `Key${key.toUpperCase()}`, false];
      press(key, code, shiftKey);
    }
    press('Enter', 'Enter', false);
  }, text);
}

test('Scan: a scanner that types leads to the machine from anywhere outside of text fields', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  await scanKeys(page, 'http://shop.example:8470/machine/m03');
  await arrives(page, '/machine/m03');
  await page.goto('/logbook');
  await page.locator('#book-machine').waitFor();
  await page.getByRole('button', { name: 'Prove it' }).focus();
  await page.keyboard.type('http://shop.example:8470/machine/m04');
  await page.keyboard.press('Enter');
  await arrives(page, '/machine/m04');
});

test('Scan: a scanner changes no choice on which the focus happens to be', async ({ page }) => {
  await page.goto('/');
  await loaded(page);
  await page.evaluate(() => {
    window.pressedAt = [];
    document.addEventListener('keydown', (event) => window.pressedAt.push(event.timeStamp), { capture: true });
  });
  // A busy computer may pause where no scanner does: that burst says nothing.
  for (let hasPaused = true; hasPaused;) {
    await page.evaluate(() => (window.pressedAt = []));
    await page.locator('#look').selectOption('dark');
    await page.locator('#look').focus();
    await page.keyboard.type('http://shop.example:8470/machine/m06');
    await page.keyboard.press('Enter');
    hasPaused = await page.evaluate(
      (longest) => window.pressedAt.some((at, index, all) => index > 0 && at - all[index - 1] > longest),
      BURST_MS / 2,
    );
  }
  await arrives(page, '/machine/m06');
  assert.equal(await page.locator('#look').inputValue(), 'dark');
});

test('Scan: in a text field the burst is text; in the Floor’s search field an address leads there', async ({
  page,
}) => {
  await page.goto('/machine/m01/new-task');
  await page.locator('#title').focus();
  await page.keyboard.type('http://shop.example:8470/machine/m02');
  await page.keyboard.press('Enter');
  assert.equal(pathOf(page), '/machine/m01/new-task');
  await page.goto('/');
  await loaded(page);
  await page.locator('#find').fill('http://shop.example:8470/machine/m02');
  await page.keyboard.press('Enter');
  await arrives(page, '/machine/m02');
  await page.goBack();
  await loaded(page);
  assert.equal(await page.locator('#find').inputValue(), '');
});

async function visit({ page }, isPhone) {
  await page.goto('/scan');
  await page.locator('#me-top').waitFor();
  await page.locator('#code').fill('x');
  await page.keyboard.press('Enter');
  await page.locator('#code-wrong').waitFor();
  if (isPhone) await measure(page);
  await expectClean(page, 'scan');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const context of [
    { colorScheme: 'light' },
    { colorScheme: 'dark', locale: 'de-DE' },
    { forcedColors: 'active' },
  ])
    test(
      `Scan: no finding, and on a phone large and apart, ${place}, ${Object.values(context)[0]}`,
      (ground) => visit(ground, place === 'phone'),
      { place: options, context },
    );
