import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { agreeStop, dayAfter, freeMachine, stopOf, stopsOf } from './stop_scenes.mjs';
import { test, until } from './suite.mjs';

async function openStop(page, id) {
  await page.goto(`/stop/${id}`);
  await page.locator('[data-work]').first().waitFor();
}

async function openClosing(page, id) {
  await openStop(page, id);
  await choosePerson(page);
  await page.getByRole('button', { name: 'Close the stop' }).click();
  await page.locator('[data-close]').first().waitFor();
}

test('Stops: planned from a machine by buttons, agreed once, and taken back', async ({ page, server }) => {
  const { machine, tasks } = await freeMachine(server);
  await page.goto(`/machine/${machine}`);
  await page.locator('section#stops').getByRole('link', { name: 'Plan a stop' }).click();
  const panel = page.locator('[data-plan]');
  await panel.waitFor();
  const title = tasks[0].title;
  await until('the task is offered', async () => {
    const more = panel.getByRole('button', { name: /^Show \d+ tasks? more/ });
    if (await more.isVisible()) await more.click();
    return (await panel.locator('.task', { hasText: title }).count()) > 0;
  });
  const task = panel.locator('.task', { hasText: title }).first();
  if ((await task.getAttribute('aria-pressed')) === 'false') await task.click();
  await panel.getByRole('button', { name: 'Next Saturday' }).click();
  await until('it is estimated', async () => /stands/.test(await panel.locator('[data-sum]').innerText()));
  assert.deepEqual(await stopsOf(server, machine), [], 'nothing is agreed before somebody says so');
  const person = await choosePerson(page);
  await panel.getByRole('button', { name: 'Agree to this stop' }).click();
  await page.locator('[data-agreed]').waitFor();
  const [stop, ...others] = await stopsOf(server, machine);
  assert.deepEqual([others.length, stop.by, new Date(stop.on).getUTCDay()], [0, person, 6]);
  assert.ok(stop.tasks.some((one) => one.task === tasks[0].task));
  await page.getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('Taken back; all is as before.').waitFor();
  assert.equal((await stopOf(server, stop.id)).state, 'withdrawn');
});

test('Stops: the card has the order of work, the kit, the caution, and never says that a machine is safe', async ({
  page,
  server,
}) => {
  const free = await freeMachine(server, (task) => task.energy === 'isolated', 5);
  const stop = await agreeStop(server, free, 30);
  const card = await server.get(`/api/stops/${stop.id}`);
  await openStop(page, stop.id);
  const shown = await page.locator('[data-work]').evaluateAll((all) => all.map((one) => one.dataset.work));
  assert.deepEqual(
    shown,
    card.order.phases.flatMap(({ works }) => works.map(({ task }) => task)),
  );
  assert.equal(await page.locator('[data-phase]').count(), card.order.phases.length);
  const text = await page.locator('main').innerText();
  assert.match(text, /The builder’s manual, local rules and licensed trades come first/);
  const ours = text.replace(/Nothing on this page says that the machine is safe/, '');
  assert.doesNotMatch(ours, /(machine|it) is (now )?safe/);
  for (const { title } of card.isolation.points) assert.ok(text.includes(title), title);
  for (const { name } of card.kit) assert.ok(text.includes(name), name);
  await page.getByRole('button', { name: 'Job card as PDF' }).click();
  const href = await page.getByRole('link', { name: /A4/ }).getAttribute('href');
  assert.equal(href, `/api/stops/${stop.id}/card.pdf?paper=a4&language=en`);
});

test(
  'Stops: closed on a phone without a connection it is kept, and sent once when the line is back',
  async ({ page, server }) => {
    const free = await freeMachine(server);
    const stop = await agreeStop(server, free, 31);
    await openClosing(page, stop.id);
    await page.route('**/api/**', (route) => route.abort('internetdisconnected'));
    await page.locator('form .main').click();
    await page.getByText('Say whether it was done.').first().waitFor();
    await page.getByRole('button', { name: 'All done' }).click();
    const [first] = await page.locator('[data-close]').all();
    await first.getByRole('button', { name: 'left undone' }).click();
    await page.locator('form .main').click();
    await page.getByText('Closed on this device.').waitFor();
    assert.equal((await stopOf(server, stop.id)).state, 'agreed');
    await page.unroute('**/api/**');
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await until('it is with the server', async () => (await stopOf(server, stop.id)).state === 'closed');
    const closed = await stopOf(server, stop.id);
    assert.deepEqual(closed.tasks.map((one) => one.state).sort(), ['done', 'done', 'left undone']);
    const { entries } = await server.get(`/api/logbook?machine=${free.machine}`);
    const kinds = entries.filter((one) => one.stop === stop.id).map((one) => one.kind);
    assert.equal(kinds.filter((kind) => kind === 'stop closed').length, 1);
    assert.equal(kinds.filter((kind) => kind === 'task done').length, 2);
    await page.locator('[data-end="closed"]').waitFor();
    assert.equal(await page.locator('.deeds').count(), 0, 'nothing more can be done about it');
  },
  { place: PHONE },
);

test('Stops: as found, a reading judged at once and minutes go with the task; the draft outlives the tab', async ({
  page,
  server,
}) => {
  const free = await freeMachine(server);
  const { tasks } = await server.get(`/api/machines/${free.machine}`);
  const standing = tasks.filter((one) => one.energy !== 'in production');
  const replaced = standing.find((one) => one.work === 'replace' || one.work === 'overhaul');
  const read = standing.find((one) => one.readings?.length > 0 && one !== replaced);
  const chosen = [replaced, read].filter(Boolean).map(({ key }) => ({ task: key }));
  const stop = await agreeStop(server, { ...free, tasks: chosen.length > 0 ? chosen : free.tasks }, 32);
  await openClosing(page, stop.id);
  await page.getByRole('button', { name: 'All done' }).click();
  if (replaced)
    await page.locator(`[data-close="${replaced.key}"]`).getByRole('button', { name: 'worn', exact: true }).click();
  if (read) {
    const field = page.locator(`[data-close="${read.key}"] input`).first();
    await field.fill('about five');
    await field.blur();
    await page.locator(`[data-close="${read.key}"] .wrong`).first().waitFor();
    await field.fill('5,2');
    await page.locator(`[data-close="${read.key}"] .judged`).first().waitFor();
  }
  await page.locator('#close-note').fill('Seal was dry.');
  await page.reload();
  await until('the note is there', async () => (await page.locator('#close-note').inputValue()) === 'Seal was dry.');
  await page.locator('form .main').click();
  await until('it is closed', async () => (await stopOf(server, stop.id)).state === 'closed');
  const closed = await stopOf(server, stop.id);
  assert.equal(closed.closed.note, 'Seal was dry.');
  if (replaced) assert.equal(closed.tasks.find((one) => one.task === replaced.key).as_found, 'worn');
  await page.locator('[data-end="closed"]').getByText('Seal was dry.').waitFor();
});

test('Stops: moved to another day, then withdrawn with a reason', async ({ page, server }) => {
  const free = await freeMachine(server);
  const stop = await agreeStop(server, free, 33);
  await openStop(page, stop.id);
  await choosePerson(page);
  await page.getByRole('link', { name: 'Change day or tasks' }).click();
  const panel = page.locator('[data-plan]');
  await panel.waitFor();
  assert.equal(await panel.locator('.main').getAttribute('aria-disabled'), 'true', 'nothing is changed yet');
  const on = dayAfter(free.today, 40);
  await panel.locator('#plan-on').fill(on);
  await panel.getByRole('button', { name: 'Agree to the change' }).click();
  await until('it is moved', async () => (await stopOf(server, stop.id)).on === on);
  await page.locator('[data-agreed]').getByRole('link', { name: 'Open the stop' }).click();
  await page.getByRole('button', { name: 'Withdraw the stop' }).click();
  await page.locator('#withdraw-why').fill('A hot order.');
  await page.getByRole('button', { name: 'Withdraw the stop' }).click();
  await page.locator('[data-end="withdrawn"]').getByText('A hot order.').waitFor();
  assert.equal((await stopOf(server, stop.id)).state, 'withdrawn');
});

test('Stops: Floor, machine and list lead to a stop', async ({ page, server }) => {
  const free = await freeMachine(server);
  const stop = await agreeStop(server, free, 34);
  await page.goto('/');
  await page.locator(`[data-next-stop="${stop.id}"]`).waitFor();
  await page.goto(`/machine/${free.machine}`);
  await page.locator(`section#stops [data-stop="${stop.id}"] a`).waitFor();
  await page.goto(`/stops?machine=${free.machine}`);
  await page.locator(`[data-stop="${stop.id}"] a`).click();
  await page.locator('h1', { hasText: free.name }).waitFor();
});

async function visit({ page, server }, isPhone, days) {
  const stop = await agreeStop(server, await freeMachine(server), days);
  const look = async (where) => {
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    assert.ok(wide <= 0, `${where} is ${wide} px too wide`);
    if (isPhone) await measure(page);
    await expectClean(page, where);
  };
  await openStop(page, stop.id);
  await page.locator('.deeds button').nth(1).click();
  await look('stop');
  await page.locator('.deeds .main').click();
  await page.locator('[data-close] .choice').first().waitFor();
  await page.locator('form .all').click();
  await page.locator('[data-close] summary').first().click();
  await look('closing');
  await page.goto('/stops');
  await page.locator('[data-stop]').first().waitFor();
  await look('stops');
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const [index, context] of [{ colorScheme: 'light' }, { colorScheme: 'dark', locale: 'de-DE' }].entries())
    test(
      `Stops: controls and access, ${place}, ${context.colorScheme}`,
      (ground) => visit(ground, place === 'phone', 50 + index),
      { place: options, context },
    );
test('Stops: German fits 320 px', (ground) => visit(ground, true, 53), {
  place: { ...PHONE, viewport: { width: 320, height: 640 } },
  context: { locale: 'de-DE' },
});
