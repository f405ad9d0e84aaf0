// The scenes of the pages beside Floor, machine and rounds: findings, logbook, a month, lives, a reading, labels, the plan in set-up, scanning.
import { newId } from './scenes.mjs';

const SAID = [
  ['m13', 'The front door no longer locks when it is slammed', 'stop the machine', 1],
  ['m07', 'Oil below the hydraulic pump, about a hand wide', 'before next shift', null],
  ['m05', 'Wiper on the X cover is torn at one corner', 'at the next stop', 0],
  ['m02', 'Lamp above the table flickers', 'watch', null],
];
const DAYS_OVER = 3;

const daysAgo = (days) => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);

/** Puts some findings into the shop, one of them overdue; gives the most severe. */
export async function findingOfShop(server) {
  const { people } = await server.get('/api/shop');
  const ids = [];
  for (const [machine, what, severity, owner] of SAID) {
    const owned = owner === null ? {} : { owner: people[owner].name, due_on: daysAgo(DAYS_OVER) };
    const body = { id: newId(), by: people[0].name, what, severity, ...owned };
    const { status, value } = await server.send('POST', `/api/machines/${machine}/findings`, body);
    if (status !== 200) throw new Error(JSON.stringify(value));
    ids.push(value.id);
  }
  return ids[0];
}

/** @param shoot takes the picture of a name; of the whole page, where that is said */
export async function takePages(page, finding, shoot) {
  await page.goto('/findings');
  await page.locator('[data-finding]').nth(3).waitFor();
  await shoot('findings');
  await page.goto(`/finding/${finding}`);
  await page.locator('#history-title').waitFor();
  await shoot('finding');
  await page.goto('/new-finding?machine=m07');
  await page.locator('#new-task option').nth(1).waitFor({ state: 'attached' });
  await shoot('new-finding');
  await page.goto('/logbook');
  await page.locator('[data-entry]').nth(3).waitFor();
  await page.locator('[data-entry] button.row').first().click();
  await page.locator('.ask button').click();
  await page.locator('#head-hash').waitFor();
  await shoot('logbook');
  await page.goto('/month');
  await page.locator('[data-figure] button.row').nth(2).click();
  await shoot('month');
  await page.goto('/lives');
  await page.locator('[data-part]').nth(3).waitFor();
  await shoot('lives');
  await page.locator('[data-part] a').first().click();
  await page.locator('#survival').waitFor();
  await shoot('part', true);
  await page.goto('/today');
  const reading = page.locator('[data-item="reading"] a.working').first();
  await reading.waitFor();
  await page.goto(await reading.getAttribute('href'));
  await page.locator('svg').nth(1).waitFor();
  await shoot('reading-trend', true);
  await page.goto('/labels');
  await page.locator('svg.page text').first().waitFor();
  await page.locator('#first_label').fill('4');
  await shoot('labels');
  await page.goto('/machine/m05/change-plan');
  await page.locator('#moved-point').selectOption('3');
  await page.locator('.steps .left').click();
  await shoot('change-plan');
  await page.goto('/scan');
  await page.locator('#code').waitFor();
  await shoot('scan');
}
