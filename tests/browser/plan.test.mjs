import assert from 'node:assert/strict';
import { PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { test, until } from './suite.mjs';

const URGENCY = ['overdue', 'due', 'coming', 'in hand'];

/** The machine's tasks at a point, and the state of the most urgent. */
function taskTitles(machine, number) {
  const tasks = machine.tasks.filter((task) => task.point === number);
  return {
    titles: tasks.map((task) => task.title),
    worst: URGENCY.find((state) => tasks.some((one) => one.state === state)),
  };
}

async function openPlan(page, key) {
  await page.goto(`/machine/${key}`);
  await page.locator('.plan button').first().waitFor();
}

/** One machine of each kind that the shop has. */
async function oneOfEachKind(server) {
  const { machines } = await server.get('/api/floor');
  return [...new Map(machines.map((machine) => [machine.kind, machine])).values()];
}

const shownTitles = (page) => page.locator('#points .task > :first-child').allInnerTexts();

test('Plan: choosing point 1 by the keyboard shows its tasks, again hides them', async ({ page, server }) => {
  const machine = await server.get('/api/machines/m01');
  const { titles } = taskTitles(machine, 1);
  assert.ok(titles.length > 0);
  await openPlan(page, 'm01');
  await page.locator('[data-point="1"]').focus();
  await page.keyboard.press('Enter');
  await until('the tasks are there', async () => (await shownTitles(page)).length === titles.length);
  assert.deepEqual((await shownTitles(page)).sort(), titles.sort());
  assert.equal(await page.locator('[data-point="1"]').getAttribute('aria-pressed'), 'true');
  await page.keyboard.press('Space');
  await until('they are gone', async () => (await shownTitles(page)).length === 0);
});

test('Plan: a task of the chosen point opens among the tasks and has the focus', async ({ page, server }) => {
  const machine = await server.get('/api/machines/m01');
  const { titles } = taskTitles(machine, 2);
  await openPlan(page, 'm01');
  await page.locator('[data-point="2"]').click();
  const first = page.locator('#points .task').first();
  const title = await first.locator('> :first-child').innerText();
  assert.ok(titles.includes(title));
  await first.click();
  const focused = () => page.evaluate(() => document.activeElement.closest('[data-task]')?.dataset.task);
  const key = machine.tasks.find((task) => task.title === title).key;
  await until('the task has the focus', async () => (await focused()) === key);
  await page.locator(`[data-task="${key}"] .done .main`).waitFor();
});

test('Plan: every point says its number, title, worst state in words, and how many tasks', async ({ page, server }) => {
  for (const { key } of await oneOfEachKind(server)) {
    await openPlan(page, key);
    const machine = await server.get(`/api/machines/${key}`);
    assert.equal(await page.locator('.plan button').count(), machine.points.length);
    const said = await page.locator('.plan').ariaSnapshot();
    for (const point of machine.points) {
      const { titles, worst } = taskTitles(machine, point.number);
      const words = worst ? `${worst}, ` : '';
      const name = `Point ${point.number} ${point.title}, ${words}${titles.length} task${titles.length === 1 ? '' : 's'}`;
      // With findings of other tests the name goes on.
      const isSaid = ['"', ', '].some((end) => said.includes(`button "${name}${end}`));
      assert.ok(isSaid, `${name}\n${said}`);
    }
  }
});

test('Plan: the list says the same, and choosing there leads to the tasks', async ({ page, server }) => {
  const machine = await server.get('/api/machines/m01');
  await openPlan(page, 'm01');
  assert.equal(await page.locator('#points .point').count(), machine.points.length);
  await page.locator('#points .point').nth(4).click();
  await until('the heading has the focus', () => page.evaluate(() => document.activeElement.matches('#points h3')));
  assert.deepEqual((await shownTitles(page)).sort(), taskTitles(machine, 5).titles.sort());
});

test(
  'Plan: on a phone the points of every kind are large and apart',
  async ({ page, server }) => {
    for (const { key } of await oneOfEachKind(server)) {
      await openPlan(page, key);
      await page.locator('.plan button').nth(2).tap();
      await page.locator('#points summary').tap();
      await measure(page);
    }
  },
  { place: PHONE },
);

test('Plan: at a desk the points are at least 44 px', async ({ page, server }) => {
  for (const { key } of await oneOfEachKind(server)) {
    await openPlan(page, key);
    const sizes = await page
      .locator('.plan button')
      .evaluateAll((buttons) =>
        buttons.map((button) => button.getBoundingClientRect()).map(({ width, height }) => ({ width, height })),
      );
    assert.ok(sizes.length > 0);
    for (const { width, height } of sizes) assert.ok(width >= 44 && height >= 44, `${width} x ${height}`);
  }
});

for (const context of [{ colorScheme: 'light' }, { colorScheme: 'dark' }, { forcedColors: 'active' }])
  test(
    `Plan: no finding with a point chosen, ${Object.values(context)[0]}`,
    async ({ page }) => {
      await openPlan(page, 'm01');
      await page.locator('[data-point="1"]').click();
      await page.locator('#points .task').first().waitFor();
      await expectClean(page, 'plan', '#points');
    },
    { context },
  );
