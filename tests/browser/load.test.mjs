import assert from 'node:assert/strict';
import { gzipSync } from 'node:zlib';
import { loaded } from './scenes.mjs';
import { test } from './suite.mjs';

const SCRIPT_BYTES_MAX = 155 * 1024;

test('Load: the first page needs less than 155 KB of compressed script', async ({ page }) => {
  const sizes = [];
  page.on('response', (response) => {
    if (response.request().resourceType() === 'script')
      sizes.push(response.body().then((body) => gzipSync(body).length));
  });
  await page.goto('/');
  await loaded(page);
  const bytes = (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
  console.log(`       ${(bytes / 1024).toFixed(0)} KB of script, gzip`);
  assert.ok(bytes > 0 && bytes < SCRIPT_BYTES_MAX, `${bytes} bytes`);
});

test('Load: the policy forbids inline scripts and styles, and the pages live with it', async ({ page }) => {
  const response = await page.goto('/machine/m01');
  const policy = response.headers()['content-security-policy'] ?? '';
  assert.doesNotMatch(policy, /unsafe-inline|unsafe-eval/);
  assert.match(policy, /(script-src|default-src) 'self'/);
  await page.locator('.uplot canvas').waitFor();
});

test('Load: a machine that stands open is asked for as often as it changes, and no more', async ({ page, server }) => {
  const asked = [];
  page.on('request', (request) => {
    if (new URL(request.url()).pathname === '/api/machines/m02') asked.push(request.url());
  });
  await page.goto('/machine/m02');
  await page.locator('.uplot canvas').waitFor();
  // While others ask a hundred times, the page, which nothing happens to, asks for its start only.
  for (let count = 0; count < 100; count += 1) await server.get('/api/today');
  assert.ok(asked.length > 0 && asked.length <= 8, `${asked.length} times`);
});
