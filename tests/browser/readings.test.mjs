import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';

/** A reading of the demo that drifts toward a limit, as Today has it. */
async function drifting(server) {
  const { items } = await server.get('/api/today');
  const item = items.find(({ kind, reading }) => kind === 'reading' && reading.crossing !== undefined);
  assert.ok(item, 'a gauge of the demo drifts');
  return item;
}

const pageOf = ({ machine, reading }) =>
  `/machine/${machine}/reading/${reading.task}?what=${encodeURIComponent(reading.what)}`;

test('Readings: from Today to the working, and to a finding that begins with its words', async ({ page, server }) => {
  const { machine, reading } = await drifting(server);
  await page.goto('/today');
  const line = page.locator('[data-item="reading"]').first();
  await line.waitFor();
  const sentence = await line.locator('.sentence').innerText();
  assert.match(sentence, /will cross .* about \d+ \w+ \d{4}, with 80\s% between|may have crossed|lies on its limit/);
  await line.locator('.working').click();
  await page.locator('h1', { hasText: reading.what }).waitFor();
  await page.locator('.graph circle.day').first().waitFor();
  assert.match(await page.locator('.out-of-sight', { hasText: 'falls by' }).innerText(), /lowest .* highest .* last/);
  await page.locator('details').evaluateAll((all) => all.forEach((one) => (one.open = true)));
  await expectClean(page, 'reading, desk');
  await page.getByRole('link', { name: 'Make a finding of it' }).click();
  await until('the finding begins with it', async () => (await page.locator('#new-what').inputValue()) !== '');
  assert.ok((await page.locator('#new-what').inputValue()).startsWith(`${reading.what}: `));
  await choosePerson(page);
  await page.locator('[name="new-severity"]').last().check();
  await page.getByRole('button', { name: 'Write it down' }).click();
  await until('Today asks no more', async () => {
    const { items } = await server.get('/api/today');
    return !items.some((one) => one.machine === machine && one.reading?.what === reading.what);
  });
});

test(
  'Readings: the list of a machine is readable and clean on a dark phone',
  async ({ page, server }) => {
    const { machines } = await server.get('/api/floor');
    const key = machines[0].key;
    await page.goto(`/machine/${key}`);
    const section = page.locator('#readings');
    await section.scrollIntoViewIfNeeded();
    await section.locator('[data-reading-line]').first().waitFor();
    const { readings, uses } = await server.get(`/api/machines/${key}/readings`);
    assert.equal(await section.locator('[data-reading-line]').count(), readings.length);
    assert.equal(await section.locator('[data-use]').count(), uses.length);
    await expectClean(page, 'readings of a machine', '#readings');
    await page.goto(pageOf({ machine: key, reading: readings.find(({ direction }) => direction !== undefined) }));
    await page.locator('.graph circle.day').first().waitFor();
    await expectClean(page, 'reading, phone');
    await measure(page);
  },
  { place: PHONE, context: { colorScheme: 'dark' } },
);
