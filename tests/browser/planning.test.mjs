import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { walkMonday } from './monday.mjs';
import {
  agreeStop,
  dayAfter,
  dayWidth,
  dragBy,
  freeMachine,
  middleOf,
  openRow,
  stopOf,
  stopsOf,
} from './stop_scenes.mjs';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';

const panelOf = (page) => page.locator('[data-plan]');
const CLICKS_MAX = 10;

test('Planning: an agreed stop is dragged to another day, agreed, and taken back', async ({ page, server }) => {
  const free = await freeMachine(server);
  const stop = await agreeStop(server, free, 5);
  const row = await openRow(page, free);
  await choosePerson(page);
  const [from, day] = [await middleOf(row, '.block'), await dayWidth(row)];
  await dragBy(page, from, 4 * day);
  await row.locator('.trial').waitFor({ state: 'attached' });
  await until('it is estimated', async () => /stands/.test(await panelOf(page).locator('[data-sum]').innerText()));
  assert.equal(await panelOf(page).locator('.main').count(), 0, 'while it moves nothing is asked');
  await page.mouse.up();
  await panelOf(page).locator('.main').waitFor();
  assert.equal((await stopOf(server, stop.id)).on, stop.on, 'setting down changes nothing');
  await panelOf(page).locator('.main').click();
  await page.locator('[data-agreed]').waitFor();
  assert.equal((await stopOf(server, stop.id)).on, dayAfter(stop.on, 4));
  await page.getByRole('button', { name: 'Take it back' }).click();
  await until('it is back', async () => (await stopOf(server, stop.id)).on === stop.on);
  assert.equal(await page.evaluate(() => location.pathname), '/horizon', 'the drag was no click');
});

test('Planning: a mark is dragged onto a day and makes a stop, onto a stop and goes into it; Esc leaves', async ({
  page,
  server,
}) => {
  const isSoon = ({ state, forecast }) =>
    (state === 'in hand' || state === 'coming') &&
    forecast.median !== null &&
    Date.parse(forecast.median) - Date.now() < 20 * 86_400_000 &&
    Date.parse(forecast.median) - Date.now() > 2 * 86_400_000;
  const free = await freeMachine(server, isSoon);
  const row = await openRow(page, free);
  await choosePerson(page);
  const [from, day] = [await middleOf(row, '.circles'), await dayWidth(row)];
  await dragBy(page, from, 3 * day);
  await row.locator('.trial').waitFor({ state: 'attached' });
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await until('it is put back', async () => (await panelOf(page).count()) === 0);
  await dragBy(page, from, 3 * day);
  await page.mouse.up();
  await panelOf(page).getByRole('button', { name: 'Agree to this stop' }).click();
  await page.locator('[data-agreed]').waitFor();
  const [stop] = await stopsOf(server, free.machine);
  assert.equal(stop.tasks.length, 1);
  await page.getByRole('button', { name: 'Fine' }).click();
  await row.locator('.block').first().waitFor({ state: 'attached' });
  await until('the block holds it', async () => /h/.test(await row.locator('.block').getAttribute('d')));
  const [block, mark] = [await middleOf(row, '.block'), await middleOf(row, '.circles')];
  if (Math.abs(block.x - mark.x) < 6) return; // the circles begin with the block's own
  await dragBy(page, mark, block.x - mark.x);
  await page.mouse.up();
  await panelOf(page)
    .getByRole('heading', { name: /^Change the stop/ })
    .waitFor();
  await panelOf(page).getByText('2 tasks').waitFor();
  await panelOf(page).getByRole('button', { name: 'Put back' }).click();
  assert.equal((await stopOf(server, stop.id)).tasks.length, 1);
});

test('Planning: by keyboard a stop is taken, moved by days and weeks, set down, and left', async ({ page, server }) => {
  const free = await freeMachine(server);
  const stop = await agreeStop(server, free, 6);
  await openRow(page, free, 13);
  await choosePerson(page);
  await page.locator('[data-here]').focus();
  for (let count = 0; count < 80; count += 1) {
    if ((await page.locator('[data-here]').getAttribute('href')) === `/stop/${stop.id}`) break;
    await page.keyboard.press('ArrowRight');
  }
  assert.equal(await page.locator('[data-here]').getAttribute('href'), `/stop/${stop.id}`);
  const at = (days) =>
    until(`it stands ${days} days later`, async () =>
      (await panelOf(page).locator('.slot').innerText()).includes(
        `${Number(dayAfter(stop.on, days).slice(8))} ${new Date(dayAfter(stop.on, days)).toLocaleString('en-GB', { month: 'long', timeZone: 'UTC' })}`,
      ),
    );
  await page.keyboard.press(' ');
  await panelOf(page).waitFor();
  await page.keyboard.press('ArrowRight');
  await at(1);
  await page.keyboard.press('Shift+ArrowRight');
  await at(8);
  await page.keyboard.press('ArrowLeft');
  await at(7);
  await page.keyboard.press('Escape');
  await until('it is left', async () => (await panelOf(page).count()) === 0);
  await page.keyboard.press(' ');
  await page.keyboard.press('Shift+ArrowRight');
  await at(7);
  await page.keyboard.press('Enter');
  await panelOf(page).locator('.main').click();
  await until('it is agreed', async () => (await stopOf(server, stop.id)).on === dayAfter(stop.on, 7));
});

test('Planning: the estimate follows each change, one question at a time, and the last one stands', async ({
  page,
  server,
}) => {
  const free = await freeMachine(server);
  await page.goto(`/horizon?as=drawing&weeks=4&plan=${free.machine}&task=${free.tasks[0].task}`);
  const sum = panelOf(page).locator('[data-sum]');
  const asked = [];
  let asking = 0;
  let most = 0;
  page.on('request', (request) => {
    if (!request.url().endsWith('/estimate')) return;
    asked.push(request.postDataJSON().on);
    most = Math.max(most, (asking += 1));
  });
  page.on('requestfinished', (request) => {
    if (request.url().endsWith('/estimate')) asking -= 1;
  });
  await until('it is estimated', async () => /stands/.test(await sum.innerText()));
  const days = [3, 9, 4, 12, 5, 15, 6, 20].map((ahead) => dayAfter(free.today, ahead));
  for (const on of days) await page.locator('#plan-on').fill(on);
  await until('the last day is asked for', async () => asked.at(-1) === days.at(-1));
  await until('it is estimated', async () => (await sum.getAttribute('aria-busy')) === 'false');
  assert.equal(most, 1);
});

async function propose(page, server, what = 'all') {
  await page.goto(`/horizon?as=drawing&weeks=${what === 'all' ? 13 : 52}&propose=yes`);
  await choosePerson(page);
  await page.locator('#propose-what').selectOption(what);
  await page.locator('#propose-seconds').selectOption('5');
  await page.locator('.begin').click();
  const panel = page.locator('.propose');
  await panel.locator('progress').waitFor();
  await until(
    'it is ready',
    async () => ['ready', 'failed'].includes(await panel.getAttribute('data-proposal')),
    60_000,
  );
  assert.equal(await panel.getAttribute('data-proposal'), 'ready', await panel.innerText());
  return { panel, proposal: await server.get('/api/proposals/latest') };
}

test('Planning: a proposal is compared with what is agreed, accepted in part, and taken back', async ({
  page,
  server,
}) => {
  const { panel, proposal } = await propose(page, server);
  const before = (await server.get('/api/stops')).stops.length;
  assert.equal(await panel.locator('[data-difference]').count(), proposal.differences.length);
  assert.ok(proposal.differences.length > 0);
  const text = await panel.innerText();
  assert.match(text, /Saves .+ against what is agreed|cannot be made cheaper/);
  await panel.locator('summary').first().click();
  await panel.getByText('People’s rules on the same shop').waitFor();
  assert.ok((await page.locator('.proposed[d^="M"]').count()) > 0, 'proposed stops are drawn');
  const first = proposal.differences.find((one) => one.kind === 'new') ?? proposal.differences[0];
  const line = panel.locator(`[data-difference="${first.key}"]`);
  assert.ok((await line.locator('.reasons li').count()) === first.reasons.length);
  await line.getByRole('button', { name: /^Accept/ }).click();
  await line.locator('.accepted').waitFor();
  const after = (await server.get('/api/stops')).stops;
  assert.equal(after.length, before + (first.kind === 'new' ? 1 : 0));
  await panel.getByRole('button', { name: 'Take back what was accepted last' }).click();
  await line.getByRole('button', { name: /^Accept/ }).waitFor();
  assert.equal((await server.get('/api/stops')).stops.length, before);
  await page.goto('/today');
  await page.locator('[data-item="proposal"]').getByRole('link', { name: 'Look at it' }).click();
  await page.locator('[data-difference]').first().waitFor();
});

test('Planning: the yearly services of all machines are spread, one is accepted, and taken back', async ({
  page,
  server,
}) => {
  const { machines } = await server.get('/api/horizon');
  const { panel, proposal } = await propose(page, server, 'services');
  assert.deepEqual([proposal.what, proposal.weeks], ['services', 52]);
  const agreed = (await server.get('/api/stops')).stops;
  const proposed = proposal.differences.filter(({ service }) => service === 'yearly');
  const explained = [...proposal.without_place, ...proposal.later];
  for (const { machine, name } of machines) {
    const isOf = (one) => one.machine === machine;
    const times = proposed.filter(isOf).length + explained.filter(isOf).length;
    assert.ok(times === 1 || (times === 0 && agreed.some(isOf)), `${name}: ${times} times`);
  }
  const slots = proposed.map(({ on, shift }) => `${on} ${shift}`);
  assert.ok(new Set(slots).size > slots.length / 2, `they are spread: ${slots.join(', ')}`);
  assert.equal(await panel.locator('.service').count(), proposed.length);
  assert.equal(await panel.locator('[data-later]').count(), proposal.later.length);
  const [first] = proposed.filter(({ kind }) => kind === 'new');
  const line = panel.locator(`[data-difference="${first.key}"]`);
  assert.match(await line.locator('.service').innerText(), /^Yearly service: \d tasks, 2 people$/);
  await line.getByRole('button', { name: /^Accept/ }).click();
  await line.locator('.accepted').waitFor();
  const [stop] = (await server.get(`/api/stops?machine=${first.machine}`)).stops.filter(({ on }) => on === first.on);
  assert.deepEqual(stop.tasks.map(({ task }) => task).toSorted(), first.tasks.toSorted());
  await panel.getByRole('button', { name: 'Take back what was accepted last' }).click();
  await until('it is taken back', async () => (await stopOf(server, stop.id)).state === 'withdrawn');
  await line.getByRole('button', { name: /^Accept/ }).waitFor();
  await page.goto(`/stop/${stop.id}`);
  await page.locator('p.service').getByText('Yearly service').waitFor();
});

test('Planning: a stop is given the tasks of the yearly service', async ({ page, server }) => {
  const free = await freeMachine(server);
  const { kinds } = await server.get('/api/shop');
  const machine = (await server.get('/api/horizon')).machines.find((one) => one.machine === free.machine);
  const [service] = kinds.find(({ key }) => key === machine.kind).services;
  await page.goto(`/horizon?as=drawing&weeks=52&plan=${free.machine}`);
  await choosePerson(page);
  await page.locator('#plan-on').fill(dayAfter(free.today, 40));
  const add = panelOf(page).locator('[data-service="yearly"]');
  assert.match(await add.innerText(), /^Add Yearly service: \d tasks?$/);
  await add.click();
  await until('all are chosen', async () => (await add.count()) === 0);
  await panelOf(page).getByRole('button', { name: 'Agree to this stop' }).click();
  await page.locator('[data-agreed]').waitFor();
  const [stop] = await stopsOf(server, free.machine);
  const held = stop.tasks.filter(({ task }) => service.tasks.includes(task));
  assert.ok(2 * held.length >= service.tasks.length, `${held.length} of ${service.tasks.length}`);
});

test('Planning: thinking can be ended early', async ({ page, server }) => {
  await page.goto('/horizon?propose=yes');
  await choosePerson(page);
  await page.locator('#propose-seconds').selectOption('180');
  await page.locator('.begin').click();
  await page.getByRole('button', { name: 'Stop thinking' }).click();
  await until('it has ended', async () => (await server.get('/api/proposals/latest')).state !== 'running', 60_000);
  await page.locator('.begin').waitFor();
});

test('Planning: from Today to an agreed Saturday stop in under ten clicks', async ({ page, server }) => {
  const { person, task, stop: id, clicks } = await walkMonday(page, server);
  const stop = await stopOf(server, id);
  assert.deepEqual([stop.state, stop.by, new Date(stop.on).getUTCDay()], ['agreed', person, 6]);
  assert.ok(stop.tasks.some((one) => one.task === task));
  assert.ok(clicks < CLICKS_MAX, `${clicks} clicks`);
  await page.locator('[data-agreed]').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('Taken back').waitFor();
});

async function visit({ page, server }, isPhone) {
  const free = await freeMachine(server);
  await page.goto(`/horizon?plan=${free.machine}`);
  await panelOf(page).waitFor();
  const look = async (where) => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${where} is ${wide} px too wide`);
    if (isPhone) await measure(page);
    await expectClean(page, where);
  };
  await until('it is estimated', async () => (await panelOf(page).locator('[data-sum]').innerText()).length > 10);
  await look('planning');
  await page.goto('/horizon?propose=yes');
  await page.locator('#propose-weeks').waitFor();
  await look('proposing');
  await page.locator('#propose-what').selectOption('services');
  await until('the year is given', async () => (await page.locator('#propose-weeks').count()) === 0);
  await look('proposing services');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  test(`Planning: controls and access, ${place}`, (ground) => visit(ground, place === 'phone'), {
    place: options,
    context: place === 'phone' ? { colorScheme: 'dark', locale: 'de-DE' } : {},
  });
test('Planning: German fits 320 px', (ground) => visit(ground, true), {
  place: { ...PHONE, viewport: { width: 320, height: 640 } },
  context: { locale: 'de-DE' },
});
