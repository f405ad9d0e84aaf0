import assert from 'node:assert/strict';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';

async function enter(page, hours) {
  await page.locator('#display-hours').fill(hours);
  await page.getByRole('button', { name: 'Save the reading' }).click();
}

test('Hour display: a reading is entered; one that falls asks what happened; a person answers', async ({
  page,
  server,
}) => {
  await page.goto('/machine/m03');
  await page.locator('#display-hours').waitFor();
  await choosePerson(page);
  await page.locator('#display-counter').selectOption('operating');
  await enter(page, '5 200,5');
  await until('the reading is listed', async () => (await page.locator('[data-reading]').count()) === 1);
  assert.equal((await server.get('/api/machines/m03')).hour_readings[0].display_h, 5200.5);
  await enter(page, '1200');
  const ask = page.locator('[data-reading="to be settled"]');
  await ask.waitFor();
  assert.equal(await ask.locator('.ask button').count(), 4);
  await ask.getByRole('button', { name: 'Misread' }).click();
  await until('it is settled', async () => (await page.locator('[data-reading="settled"]').count()) === 1);
  assert.match(await page.locator('[data-reading="settled"]').innerText(), /Misread/);
});

test('Hour display: what is not a number of hours is refused where it is typed', async ({ page, server }) => {
  await page.goto('/machine/m04');
  await page.locator('.uplot canvas').waitFor(); // what stands above the form moves no more
  await choosePerson(page);
  for (const text of ['-5', '12 h', '1e309', '2000000', '12,345']) {
    await enter(page, text);
    await page.locator('#display-hours-wrong').waitFor();
    await until('the field is where one types', () =>
      page.evaluate(() => document.activeElement.id === 'display-hours'),
    );
  }
  assert.deepEqual((await server.get('/api/machines/m04')).hour_readings, []);
});

/** How many days a request asks for; 0 where it asks for something else. */
function spanOf(url) {
  const { pathname, searchParams } = new URL(url);
  if (!pathname.endsWith('/days')) return 0;
  return (Date.parse(searchParams.get('to')) - Date.parse(searchParams.get('from'))) / 86_400_000 + 1;
}

test('History: bars for 30, 90 and 365 days, and the same as a table', async ({ page }) => {
  await page.goto('/machine/m03');
  await page.locator('.uplot canvas').waitFor();
  for (const days of [90, 365, 30]) {
    const answer = page.waitForResponse((response) => spanOf(response.url()) === days);
    await page.getByRole('button', { name: `${days} days`, exact: true }).click();
    const count = (await (await answer).json()).days.length;
    await until(`${count} days are there`, async () => (await page.locator('.scroll tbody tr').count()) === count);
  }
  await page.locator('#chart-counter').selectOption('cutting');
  await until('the summary follows', async () => (await page.locator('p.summary').innerText()).startsWith('Cutting'));
  const drawn = await page.locator('.uplot canvas').evaluate((canvas) => {
    const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
    return data.some((byte) => byte !== 0);
  });
  assert.ok(drawn);
});

test('Counters: the working of a counter adds up to its total', async ({ page }) => {
  await page.goto('/machine/m03');
  const card = page.locator('#counters [data-counter="operating"]');
  await card.locator('summary').click();
  const value = (text) => Number(text.replace(/[^\d.−]/g, '').replace('−', '-'));
  const [counted, filled, adjusted, total] = (await card.locator('.working dd').allInnerTexts()).map(value);
  assert.ok(Math.abs(counted + filled + adjusted - total) < 0.21, `${counted} + ${filled} + ${adjusted} = ${total}`);
  assert.ok(total > 0);
});
