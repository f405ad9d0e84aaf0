import assert from 'node:assert/strict';
import { many } from '../../app/fake/horizon.mjs';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';
import { test, until } from './suite.mjs';

const MOUSE_PX = 24;
const GERMAN = { locale: 'de-DE' };
const says = (page) => page.locator('[data-says]').innerText();
const rows = (page) => page.locator('[data-row]');

async function openHorizon(page, query = '?as=drawing') {
  await page.goto(`/horizon${query}`);
  await page.locator('[data-row], tbody tr').first().waitFor();
}

/** A task with a range in the next weeks that no stop holds, and its machine. */
async function rangedTask(server) {
  const { machines, stops, today } = await server.get('/api/horizon');
  const held = new Set(stops.flatMap((stop) => stop.tasks.map(({ task }) => `${stop.machine}/${task}`)));
  const inWeeks = (date, weeks) => Date.parse(date) - Date.parse(today) < weeks * 7 * 86_400_000;
  for (const machine of machines)
    for (const task of machine.tasks) {
      const { first, median, last } = task.forecast;
      const isRange =
        first !== null && last !== null && first < last && (task.state === 'in hand' || task.state === 'coming');
      if (isRange && inWeeks(median, 12) && !held.has(`${machine.machine}/${task.task}`)) return { machine, task };
    }
  throw new Error('no task of this shop has a range');
}

test('Horizon: every task is drawn or counted, for each choice of weeks', async ({ page, server }) => {
  await openHorizon(page);
  const { machines } = await server.get('/api/horizon');
  const all = machines.reduce((sum, machine) => sum + machine.tasks.length, 0);
  for (const weeks of [4, 13, 26, 52]) {
    await page.getByRole('button', { name: `${weeks} weeks`, exact: true }).click();
    await until('the address keeps it', async () => page.url().includes(`weeks=${weeks}`));
    const text = (await page.locator('.head [role=status]').innerText()).replaceAll('\u202f', '');
    const [within, of] = text
      .match(/^(\d+) tasks? of (\d+)/)
      .slice(1)
      .map(Number);
    const beyond = (await page.locator('.beyond span').allInnerTexts()).reduce((sum, one) => sum + parseInt(one), 0);
    assert.equal(of, all);
    assert.equal(within + beyond, all, `${weeks} weeks`);
  }
});

test('Horizon: by keyboard along a row, between rows, and into the working', async ({ page, server }) => {
  await openHorizon(page);
  await page.locator('[data-here]').focus();
  const first = await says(page);
  assert.ok(first.length > 20);
  const label = () => page.evaluate(() => document.activeElement.getAttribute('aria-label'));
  assert.ok(first.startsWith((await label()).split(';')[0].replace(/\.$/, '')));
  await page.keyboard.press('End');
  const last = await label();
  assert.notEqual(last, first);
  await page.keyboard.press('ArrowDown');
  const below = await label();
  assert.notEqual(below, last);
  const { machines } = await server.get('/api/horizon');
  const named = machines.find((machine) => below.includes(`, ${machine.name}: `));
  assert.ok(named, `"${below}" names its machine`);
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  assert.notEqual(outline, 'none');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'When, and how sure' }).waitFor();
  assert.match(page.url(), /\/task-date\//);
  assert.equal(await page.evaluate(() => document.activeElement.tagName), 'H1');
});

test('Horizon: the sentence tells the range and what is left', async ({ page, server }) => {
  const { machine, task } = await rangedTask(server);
  await openHorizon(page, `?as=drawing&find=${encodeURIComponent(machine.name)}`);
  await page.locator('[data-here]').focus();
  await page.keyboard.press('Home');
  for (let count = 0; count < 100 && !(await says(page)).startsWith(`${task.title}, ${machine.name}: most`); count += 1)
    await page.keyboard.press('ArrowRight');
  assert.match(await says(page), /most likely .+, with 80\s% between .+ and /);
  await until('what is left follows', async () => /(left|over)( of| every)/.test(await says(page)));
});

test('Horizon: a mark under the pointer is read, a click opens it', async ({ page }) => {
  await openHorizon(page);
  const at = await page.locator('[data-here]').boundingBox();
  await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
  await until('it is read', async () => / (most likely|due|overdue)/.test(await says(page)));
  await page.mouse.click(at.x + at.width / 2, at.y + at.height / 2);
  await page.getByRole('heading', { name: 'When, and how sure' }).waitFor();
});

test('Horizon: what is chosen narrows the rows and stays in the address', async ({ page, server }) => {
  await openHorizon(page);
  const { machines } = await server.get('/api/horizon');
  const cell = machines[0].cell;
  await page.locator('#cell').selectOption(cell);
  await page.locator('#skill').selectOption('technician');
  const wanted = machines.filter((one) => one.cell === cell && one.tasks.some((task) => task.skill === 'technician'));
  await until('only that cell', async () => (await rows(page).count()) === wanted.length);
  await page.locator('#find').fill('no such machine or task');
  await page.getByText('No task fits what you chose.').waitFor();
  await page.reload();
  await page.getByText('No task fits what you chose.').waitFor();
  await page.getByRole('button', { name: 'Show all tasks' }).click();
  await until('all again', async () => (await rows(page).count()) === machines.length);
});

test('Horizon: the list says the same as the server', async ({ page, server }) => {
  const { task, machine } = await rangedTask(server);
  await openHorizon(page, `?as=list&find=${encodeURIComponent(task.title)}`);
  const line = page.locator('tbody tr').filter({ hasText: task.title }).filter({ hasText: machine.name });
  const dates = await line.first().innerText();
  assert.ok(dates.includes(`${Number(task.forecast.median.slice(8))} `), `${dates} holds ${task.forecast.median}`);
  assert.ok(dates.includes(`${Number(task.forecast.first.slice(8))} `), `${dates} holds ${task.forecast.first}`);
});

test('Horizon: 200 machines of 40 tasks are there, and only what is near is drawn', async ({ page, server }) => {
  const horizon = many(await server.get('/api/horizon'), 200, 40);
  await page.route('**/api/horizon', (route) => route.fulfill({ json: horizon }));
  await openHorizon(page);
  assert.equal(await rows(page).count(), 200);
  assert.ok((await page.locator('[data-plot] svg').count()) < 80);
  await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
  await until('the last is drawn', async () => (await rows(page).last().locator('svg').count()) === 1);
});

test('Horizon: on paper every row is drawn, and no control is printed', async ({ page }) => {
  await openHorizon(page);
  const count = await rows(page).count();
  await page.emulateMedia({ media: 'print' });
  await until('all are drawn', async () => (await page.locator('[data-plot] svg').count()) === count);
  const seen = await page
    .locator('.choices, .top, header, footer, .button')
    .evaluateAll((all) => all.filter((one) => one.checkVisibility()).length);
  assert.equal(seen, 0);
  const pdf = await page.pdf({ preferCSSPageSize: true });
  assert.ok(pdf.length > 10_000);
});

test('Horizon: a change of use is announced, moves the dates’ working, and is withdrawn', async ({ page }) => {
  await page.goto('/use-changes');
  await choosePerson(page);
  await page.getByRole('button', { name: 'Announce it' }).click();
  await page.getByText('Choose the first day.').waitFor();
  await page.locator('#use-from').fill('2031-01-06');
  await page.locator('#use-until').fill('2031-01-01');
  await page.locator('#use-why').fill('a third shift for the test');
  await page.getByRole('button', { name: 'Announce it' }).click();
  await page.getByText('Should not lie before the first day.').waitFor();
  await page.locator('#use-until').fill('2031-03-31');
  await page.locator('#use-machine').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Announce it' }).click();
  await page.getByText('Announced. The forecasts reckon with it').waitFor();
  const line = page.locator('li', { hasText: 'a third shift for the test' }).last();
  assert.match(await line.innerText(), /6 Jan 2031 to 31 Mar 2031: half as much again/);
  await line.getByRole('button').click();
  await line.getByText('withdrawn').waitFor();
});

test('Task date: the working shows what is left, the chances and the history, and as tables', async ({
  page,
  server,
}) => {
  const { machine, task } = await rangedTask(server);
  const working = await server.get(`/api/machines/${machine.machine}/tasks/${task.task}/forecast`);
  await page.goto(`/machine/${machine.machine}/task-date/${task.task}`);
  await page.getByRole('heading', { name: 'When, and how sure' }).waitFor();
  assert.equal(await page.locator('h1').innerText(), task.title);
  const onCounter = working.triggers.filter((trigger) => trigger.counter && !trigger.refused && trigger.left > 0);
  assert.equal(await page.locator('code').count(), onCounter.length);
  await page.locator('main details').evaluateAll((all) => all.forEach((one) => (one.open = true)));
  const history = working.triggers.find((trigger) => trigger.history?.length)?.history ?? [];
  if (history.length > 0) {
    const [first, last] = [history[0].date, history.at(-1).date];
    const days = (Date.parse(last) - Date.parse(first)) / 86_400_000 + 1;
    const shown = await page.locator('main table', { hasText: 'Used' }).first().locator('tbody tr').count();
    assert.equal(shown, days);
  }
  await expectClean(page, 'task date');
});

test('Machine: past forecasts are told in a sentence and beside simpler ones', async ({ page }) => {
  await page.goto('/machine/m01#backtest');
  await page.locator('#backtest-title').waitFor();
  await page.locator('#backtest-title').scrollIntoViewIfNeeded();
  const one = page.locator('[data-backtest]').first();
  await until('it is computed', async () => !(await one.innerText()).includes('Working through'), 60_000);
  await page.locator('[data-backtest] summary').first().click();
  await page.getByText('Loss (pinball loss)').first().waitFor();
});

/** One tap on a date that is shown leads to its working. */
async function expectOpensItsWorking(page, date) {
  await date.waitFor();
  const { height } = await date.boundingBox();
  assert.ok(height >= MOUSE_PX, `the date is ${height} px high`);
  await date.click();
  assert.match(page.url(), /\/machine\/[^/]+\/task-date\//);
  await page.locator('h1').waitFor();
}

test('Machine and Floor: the forecast stands beside what is left, and leads to its working', async ({
  page,
  server,
}) => {
  const { machine, task } = await rangedTask(server);
  await page.goto(`/machine/${machine.machine}`);
  const date = page.locator(`[data-forecast="${task.task}"]`).first();
  await date.waitFor();
  assert.match(await date.innerText(), /80\s%/);
  await expectOpensItsWorking(page, date);
  await page.goto('/');
  await expectOpensItsWorking(page, page.locator('[data-machine] [data-forecast]').first());
});

test(
  'Phone: dates on the Floor and at a machine are large and apart from what they stand beside',
  async ({ page, server }) => {
    const { machine } = await rangedTask(server);
    for (const path of ['/', `/machine/${machine.machine}`]) {
      await page.goto(path);
      await page.locator('[data-forecast]').first().waitFor();
      await measure(page);
    }
  },
  { place: PHONE },
);

test('Today: every item has a sentence and one button, in groups', async ({ page, server }) => {
  await server.send('POST', '/api/machines/m02/findings', {
    id: newId(),
    by: (await server.get('/api/shop')).people[0].name,
    what: 'Oil under the headstock',
    severity: 'before next shift',
  });
  let items = [];
  page.on('response', async (response) => {
    if (response.url().endsWith('/api/today')) items = (await response.json()).items;
  });
  await page.goto('/today');
  await page.locator('[data-item]').first().waitFor();
  for (const item of await page.locator('[data-item]').all()) {
    assert.ok((await item.locator('.sentence').textContent()).trim().length > 10);
    assert.equal(await item.locator('button, a.button').count(), 1);
  }
  const counted = async () => (await page.locator('main [role=status]').innerText()).replaceAll('\u202f', '');
  await until('all are counted', async () => (await counted()).startsWith(`${items.length} thing`));
});

test('Today: who takes a finding owns it', async ({ page, server }) => {
  const what = 'A guard that does not latch';
  const id = newId();
  const by = (await server.get('/api/shop')).people[0].name;
  await server.send('POST', '/api/machines/m03/findings', { id, by, what, severity: 'stop the machine' });
  await page.goto('/today');
  const person = await choosePerson(page);
  const item = page.locator('[data-item="finding"]', { hasText: what });
  await item.getByRole('button', { name: /^I take it/ }).click();
  await until('it opens', async () => page.url().includes(`/finding/${id}`));
  await until('the server knows', async () => (await server.get(`/api/findings/${id}`)).finding.owner === person);
});

test('Today: a day without anything to decide says so', async ({ page }) => {
  const nothing = { now: new Date().toISOString(), today: '2026-11-25', items: [] };
  await page.route('**/api/today', (route) => route.fulfill({ json: nothing }));
  await page.goto('/today');
  await page.getByText('Nothing has to be decided today.').waitFor();
});

const PAGES = ['/horizon?as=drawing', '/horizon?as=list', '/use-changes', '/today'];

async function visitAll({ page, server }, isPhone) {
  const { machine, task } = await rangedTask(server);
  for (const path of [...PAGES, `/machine/${machine.machine}/task-date/${task.task}`]) {
    await page.goto(path);
    await page.locator('[data-row], tbody tr, [data-item], form').first().waitFor();
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${path} is ${wide} px too wide`);
    if (isPhone) await measure(page);
    await expectClean(page, path);
  }
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const colorScheme of ['light', 'dark'])
    test(`Dates: controls and access, ${place}, ${colorScheme}`, (ground) => visitAll(ground, place === 'phone'), {
      place: options,
      context: { colorScheme },
    });
test('Dates: controls and access with forced colours', (ground) => visitAll(ground, false), {
  context: { forcedColors: 'active' },
});
test('Dates: German fits 320 px', (ground) => visitAll(ground, true), {
  place: { ...PHONE, viewport: { width: 320, height: 640 } },
  context: GERMAN,
});

test(
  'Horizon: on a phone a touched mark is read and opened below',
  async ({ page }) => {
    await openHorizon(page);
    const plot = page.locator('[data-plot]').first();
    await plot.locator('svg').waitFor();
    await plot.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const circle = await plot.locator('svg .circles').evaluate((path) => {
      const [, x, y] = /M([\d.]+) ([\d.]+)/.exec(path.getAttribute('d'));
      const box = path.ownerSVGElement.getBoundingClientRect();
      return { x: box.x + Number(x) + 8, y: box.y + Number(y) };
    });
    await page.touchscreen.tap(circle.x, circle.y);
    await page.locator('.top .button').waitFor();
    await page.locator('.top .button').click();
    await page.getByRole('heading', { name: 'When, and how sure' }).waitFor();
  },
  { place: PHONE },
);
