import assert from 'node:assert/strict';
import { expectClean } from './clean.mjs';
import { test } from './suite.mjs';

test('What if: years under another interval are played and compared, in words and in a table', async ({
  page,
  server,
}) => {
  const { parts } = await server.get('/api/lives');
  const part = parts.find(({ move, interval }) => move !== undefined && interval !== undefined);
  await page.goto(`/lives/${part.kind}/${part.task}`);
  const section = page.locator('[data-what-if]');
  await section.getByRole('button', { name: 'Play the years' }).click();
  await section.locator('.verdict').waitFor();
  assert.match(await section.locator('.verdict').innerText(), /costs/);
  assert.equal(await section.locator('tbody tr').count(), 5);
  assert.match(await section.innerText(), /years played with \d+/);
  await section.getByRole('textbox').fill('0');
  await section.getByRole('button', { name: 'Play the years' }).click();
  assert.match(await section.locator('.wrong').innerText(), /above/);
  await expectClean(page, 'what a year would come to', '[data-what-if]');
});
