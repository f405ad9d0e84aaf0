import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { isReal } from './server.mjs';
import { test as register, until } from './suite.mjs';

/** The invented shop keeps no stores. */
const test = (...about) => isReal && register(...about);

const partOf = (server, number) => server.get(`/api/stores/parts/${encodeURIComponent(number)}`);
const isWithout = async (server, stop) =>
  (await server.get('/api/stores/readiness')).stops.find((one) => one.stop === stop)?.state;

/** Opens a part's page with somebody named. */
async function openPart(page, number) {
  await page.goto(`/stores/${number}`);
  await page.locator('[data-deed="taken"]').waitFor();
  await choosePerson(page);
}

test('Stores: a kit that is short is ordered from Today, delivered, and ready', async ({ page, server }) => {
  const { stops } = await server.get('/api/stores/readiness');
  const short = stops.find(({ state }) => state === 'short');
  const lacking = short.lines.find(({ state }) => state === 'short');
  const { proposals, open: before } = await server.get('/api/stores/orders');
  const { supplier, lines } = proposals.find((one) => one.lines.some(({ part }) => part === lacking.part));
  await page.goto('/today');
  await choosePerson(page);
  const item = page.locator('[data-item="kit"]', { hasText: lacking.name });
  await item.waitFor();
  await page.locator('[data-item="order"]', { hasText: supplier }).locator('a.button').click();
  const order = page.locator(`[data-order="${supplier}"]`);
  await order.getByRole('button', { name: 'It is ordered so' }).click();
  const placed = await until('it is ordered', async () =>
    (await server.get('/api/stores/orders')).open.find(({ id }) => before.every((one) => one.id !== id)),
  );
  assert.deepEqual(
    placed.lines.map(({ part, quantity }) => [part, quantity]),
    lines.map(({ part, quantity }) => [part, quantity]),
  );
  const open = page.locator(`[data-open-order="${placed.id}"]`);
  await open.getByRole('button', { name: 'Delivered' }).click();
  const came = open.getByRole('textbox', { name: `Came: ${lines[0].title}` });
  assert.equal(await came.inputValue(), String(lines[0].quantity));
  await came.fill(String(lines[0].quantity + 1));
  await open.getByRole('button', { name: 'Put on the shelf' }).click();
  await open.getByRole('button', { name: /More came than was ordered/ }).click();
  await page.locator(`[data-ready="${short.stop}"][data-state="ready"]`).waitFor();
  assert.equal(await isWithout(server, short.stop), 'ready');
  await open.waitFor({ state: 'detached' });
  await page.locator(`[data-ready="${short.stop}"] summary`).click();
  await page.locator(`[data-line="${lacking.part}"][data-state="reserved"]`).waitFor();
  await expectClean(page, 'the stores');
});

test(
  'Stores: the label of a shelf leads to its count, and the next one is scanned from there',
  async ({ page, server }) => {
    const { parts } = await server.get('/api/stores');
    const { part } = parts.find(({ state }) => state === 'count it') ?? parts[0];
    await page.goto('/stores');
    await page.locator('[data-part]').first().waitFor();
    await choosePerson(page);
    await page.locator('h1').focus();
    await page.keyboard.type(`http://shop.example:8470/stores/${part.number}`);
    await page.keyboard.press('Enter');
    const field = page.locator('#moved');
    await until('the number is to be written', () => field.evaluate((one) => document.activeElement === one));
    await expectClean(page, 'counting');
    await measure(page);
    await field.fill('7');
    await page.keyboard.press('Enter');
    await page.locator(`[data-counted="${part.number}"]`).waitFor();
    const counted = await until('it is counted', async () => {
      const now = await partOf(server, part.number);
      return now.on_hand === 7 && now;
    });
    assert.equal(counted.difference, 0);
    await page.getByRole('link', { name: 'Next: scan' }).click();
    await page.locator(`[data-counted="${part.number}"]`).waitFor();
    await page.locator('#code').fill(part.number.toLowerCase());
    await page.keyboard.press('Enter');
    await until('by its number too', () => new URL(page.url()).search === '?count=yes');
  },
  { place: PHONE },
);

test(
  'Stores: taken and put back without a connection, and with the server when the line is back',
  async ({ page, server }) => {
    const { parts } = await server.get('/api/stores');
    const { part, on_hand: before } = parts.find(
      (one) => one.on_hand >= 3 && one.part.unit === 'piece' && !one.part.serial,
    );
    await openPart(page, part.number);
    await page.route('**/api/**', (route) => route.abort('internetdisconnected'));
    for (const [kind, quantity] of [
      ['taken', '2'],
      ['returned', '1'],
    ]) {
      await page.locator(`[data-deed="${kind}"]`).click();
      await page.locator('form[data-moving] .main').click();
      await page.locator('#moved-wrong').waitFor();
      await page.locator('#moved').fill(quantity);
      await page.locator('form[data-moving] .main').click();
      await page.locator('#kept-deed').waitFor();
    }
    assert.equal(await page.getByText('not sent yet').count(), 2);
    assert.equal((await partOf(server, part.number)).on_hand, before);
    await page.unroute('**/api/**');
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    const { moves } = await until('both are with the server', async () => {
      const now = await partOf(server, part.number);
      return now.on_hand === before - 1 && now;
    });
    assert.deepEqual(
      moves.slice(0, 2).map(({ kind, quantity }) => [kind, quantity]),
      [
        ['returned', 1],
        ['taken', 2],
      ],
    );
  },
  { place: PHONE },
);

test('Stores: a stop’s kit is taken at once, and what was not used comes back with the closing', async ({
  page,
  server,
}) => {
  const { stops } = await server.get('/api/stores/readiness');
  const ready = stops.find(({ state, lines }) => state === 'ready' && lines.length > 0);
  const [line] = ready.lines;
  const before = (await partOf(server, line.part)).on_hand;
  await page.goto(`/stop/${ready.stop}`);
  await choosePerson(page);
  await page.getByRole('button', { name: 'Take the kit' }).click();
  await page.getByRole('button', { name: 'Taken as it stands here' }).click();
  await page.locator(`[data-line="${line.part}"][data-state="taken"]`).waitFor();
  const near = async (wanted) => Math.abs((await partOf(server, line.part)).on_hand - wanted) < 1e-6;
  assert.ok(await near(before - line.quantity));
  await page.getByRole('button', { name: 'Close the stop' }).click();
  await page.getByRole('button', { name: 'All done' }).click();
  await page.locator('#used-0').fill('0');
  await page.locator('form .main').click();
  await page.locator('[data-end="closed"]').waitFor();
  assert.ok(await near(before));
});

test(
  'Stores: a part is made and changed, and a kit takes it, large and apart on a phone',
  async ({ page, server }) => {
    await page.goto('/stores/N-1');
    await page.locator('#part-title').waitFor();
    await choosePerson(page);
    await page.locator('#part-form .main').click();
    await page.locator('#part-title-wrong').waitFor();
    await measure(page);
    await page.locator('#part-title').fill('Lint-free cloth');
    await page.locator('#part-price').fill('0,8');
    await page.locator('#part-form .main').click();
    await page.locator('[data-deed="taken"]').waitFor();
    assert.equal((await partOf(server, 'N-1')).part.price, 0.8);
    await measure(page);
    await page.goto('/kits');
    const kit = page.locator('[data-kit-of]').first();
    await kit.getByRole('button').click();
    await page.getByRole('button', { name: 'Add a line' }).click();
    const fields = page.locator('[id^="kit-part-"]:not(p)');
    await fields.last().fill('N-1');
    await page.locator('#kit-form .main').click();
    await kit.getByText('N-1').waitFor();
    await expectClean(page, 'kits');
    const { kits } = await partOf(server, 'N-1');
    assert.ok(kits.length <= 1);
  },
  { place: PHONE },
);

test('Stores: a sheet with a mistake takes over nothing; mended, all of it', async ({ page, server }) => {
  const heads = 'Teilenummer;Bezeichnung;Einheit;Preis;Bestand';
  const choose = (rows) => {
    const buffer = Buffer.from([heads, ...rows].join('\n'));
    return page.locator('#sheet-file').setInputFiles({ name: 'parts.csv', mimeType: 'text/csv', buffer });
  };
  await page.goto('/parts-sheet');
  await choosePerson(page);
  await choose(['N-801;Cloth;piece;0,80;120', 'N-802;Cable tie;piece;0,05;viele']);
  await page.locator('[data-mistake="3"]').waitFor();
  assert.match(await page.locator('[data-mistake="3"]').innerText(), /Bestand.*viele/s);
  assert.equal(await page.getByRole('button', { name: /^Take over/ }).count(), 0);
  await expectClean(page, 'a sheet with a mistake');
  await choose(['N-801;Cloth;piece;0,80;120', 'N-802;Cable tie;piece;0,05;2000']);
  await page.getByRole('button', { name: 'Take over all 2 rows' }).click();
  await page.getByText('Taken over.').waitFor();
  const { part, on_hand } = await partOf(server, 'N-802');
  assert.deepEqual([part.title, part.price, on_hand], ['Cable tie', 0.05, 2000]);
  const { entries } = await server.get('/api/logbook?kind=sheet%20read');
  assert.equal(entries[0].told.stores.parts, 2);
});

test(
  'Stores: no finding, and on a phone large and apart, dark and German',
  async ({ page }) => {
    await page.goto('/stores');
    await page.locator('[data-part]').first().waitFor();
    await measure(page);
    await expectClean(page, 'the stores');
    await page.locator('#part-find').fill('xyz');
    await page.getByText('Ein solches Teil gibt es nicht.').waitFor();
  },
  { place: PHONE, context: { colorScheme: 'dark', locale: 'de-DE' } },
);
