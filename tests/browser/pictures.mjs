// Takes the pictures of docs/pictures/: every page at a desk and on a phone, light and dark; some in German.
// usage: npm run pictures [FOLDER]
import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { DESK, openChromium, openPage, PHONE } from './chromium.mjs';
import { takeJoining } from './join_pictures.mjs';
import { choosePerson } from './people.mjs';
import { findingOfShop, takePages } from './picture_pages.mjs';
import { takeRounds } from './picture_rounds.mjs';
import { takeStores } from './picture_stores.mjs';
import { stopOfShop, takeMonday, takeStops } from './picture_stops.mjs';
import { isReal, Server } from './server.mjs';

const folder = process.argv[2] ?? fileURLToPath(new URL('../../docs/pictures', import.meta.url));
const PLACES = { desk: DESK, phone: PHONE };
const LOOKS = ['light', 'dark'];

/** A machine with an open task that must be isolated for, the most telling picture. */
async function isolatedTask(server) {
  const { machines } = await server.get('/api/floor');
  for (const { key } of machines) {
    const { tasks } = await server.get(`/api/machines/${key}`);
    const task = tasks.find(
      (one) => one.energy === 'isolated' && one.state !== 'in hand' && one.triggers.some((t) => t.counter),
    );
    if (task) return task;
  }
  const { tasks } = await server.get('/api/machines/m01');
  return tasks.find((one) => one.energy === 'isolated') ?? tasks[0];
}

async function shoot(page, name, fullPage = false) {
  await page.screenshot({ path: `${folder}/${name}.png`, fullPage });
  console.log(`${name}.png`);
}

/** The same pages in German, in one look each. */
async function takeGerman(server, browser, placeName, look, task) {
  const page = await openPage(browser, server.url, PLACES[placeName], { colorScheme: look, locale: 'de-DE' });
  await page.goto('/');
  await choosePerson(page);
  await page.locator('[data-machine]').nth(23).waitFor();
  await shoot(page, `floor-german-${placeName}-${look}`);
  await page.goto(`/machine/${task.machine}?task=${encodeURIComponent(task.key)}`);
  await page.locator('.done .main').waitFor();
  await shoot(page, `task-german-${placeName}-${look}`);
  for (const wrong of page.wrongs) console.log(`WRONG ${wrong}`);
  await page.context().close();
}

/** When tasks fall due: the Horizon, the working of a date, and what is to be decided today. */
async function takeDates(page, end, task) {
  await page.goto('/horizon');
  await page.locator('[data-plot] svg, tbody tr').first().waitFor();
  await shoot(page, `horizon-${end}`);
  await page.goto('/horizon?as=drawing&weeks=4');
  await page.locator('[data-plot] svg').first().waitFor();
  await page.locator('[data-row]').first().scrollIntoViewIfNeeded();
  await shoot(page, `horizon-four-weeks-${end}`);
  await page.goto(`/machine/${task.machine}/task-date/${encodeURIComponent(task.key)}`);
  await page.locator('#when').waitFor();
  await shoot(page, `task-date-${end}`);
  await page.goto('/today');
  await page.locator('[data-item]').first().waitFor();
  await shoot(page, `today-${end}`);
}

async function takeAll(server, browser, placeName, look, { task, finding, stop }) {
  const page = await openPage(browser, server.url, PLACES[placeName], { colorScheme: look });
  const end = `${placeName}-${look}`;
  await page.goto('/');
  await choosePerson(page);
  await page.locator('[data-machine]').nth(23).waitFor();
  await shoot(page, `floor-${end}`);
  await page.goto(`/machine/${task.machine}?task=${encodeURIComponent(task.key)}`);
  await page.locator('.done .main').waitFor();
  await shoot(page, `task-${end}`);
  await page.goto(`/machine/${task.machine}`);
  await page.locator('.uplot canvas').waitFor();
  await shoot(page, `machine-${end}`);
  await page.locator('#chart-counter').scrollIntoViewIfNeeded();
  await page.locator('section#counters').screenshot({ path: `${folder}/counters-${end}.png` });
  await page.locator(`[data-point="${task.point ?? 1}"]`).click();
  await page.locator('section#points').screenshot({ path: `${folder}/plan-${end}.png` });
  await takeDates(page, end, task);
  await page.goto(`/machine/${task.machine}/new-task`);
  await page.locator('form').waitFor();
  await shoot(page, `form-${end}`);
  await takePages(page, finding, (name, fullPage) => shoot(page, `${name}-${end}`, fullPage));
  await takeRounds(page, server, (name) => shoot(page, `${name}-${end}`));
  await takeStops(page, stop, (name, isWhole) => shoot(page, `${name}-${end}`, isWhole));
  if (isReal) await takeStores(page, server, (name) => shoot(page, `${name}-${end}`));
  for (const wrong of page.wrongs) console.log(`WRONG ${wrong}`);
  await page.context().close();
}

mkdirSync(folder, { recursive: true });
const server = await Server.open();
const browser = await openChromium();
try {
  const task = await isolatedTask(server);
  const finding = await findingOfShop(server);
  await takeMonday(server, browser, shoot);
  const stop = await stopOfShop(server);
  for (const placeName of Object.keys(PLACES))
    for (const look of LOOKS) await takeAll(server, browser, placeName, look, { task, finding, stop });
  await takeGerman(server, browser, 'desk', 'light', task);
  await takeGerman(server, browser, 'phone', 'dark', task);
  if (isReal) await takeJoining(LOOKS, shoot);
} finally {
  await browser.close();
  await server.stop();
}
