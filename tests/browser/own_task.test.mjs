import assert from 'node:assert/strict';
import { choosePerson } from './people.mjs';
import { newId, taskOf } from './scenes.mjs';
import { test, until } from './suite.mjs';

const field = (page, name) => page.locator(`[id="${name}"]`);

async function addTask(page, title) {
  await page.goto('/machine/m02/new-task');
  await page.locator('form').waitFor();
  await choosePerson(page);
  await field(page, 'title').fill(title);
  await field(page, 'triggers.0.on').selectOption('operating');
  await field(page, 'triggers.0.interval').fill('62,5');
  await field(page, 'triggers.0.headsUp').fill('7.5');
  await page.getByRole('button', { name: 'Save the task' }).click();
  const row = page.locator('[data-task]', { hasText: title });
  await row.waitFor();
  return row.getAttribute('data-task');
}

async function ownTask(server, title) {
  return (await server.get('/api/machines/m02')).tasks.find((task) => task.title === title);
}

test('Own task: added with comma and point, changed, retired', async ({ page, server }) => {
  const key = await addTask(page, 'Wipe the lamp above the table');
  const added = await taskOf(server, 'm02', key);
  assert.equal(added.own, true);
  assert.equal(added.triggers[0].interval, 62.5);
  assert.equal(added.triggers[0].heads_up, 7.5);

  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'title').waitFor();
  assert.equal(await field(page, 'triggers.0.interval').inputValue(), '62.5');
  await page.getByRole('button', { name: 'Add a trigger' }).click();
  await field(page, 'triggers.1.on').selectOption('calendar');
  await field(page, 'triggers.1.interval').fill('3');
  await field(page, 'triggers.0.interval').fill('80');
  await page.getByRole('button', { name: 'Save the task' }).click();
  await page.locator(`[data-task="${key}"] .done`).waitFor();
  const changed = await taskOf(server, 'm02', key);
  assert.deepEqual(
    changed.triggers.map((one) => one.calendar ?? one.interval),
    [80, '3 months'],
  );

  await page.locator(`[data-task="${key}"]`).getByRole('button', { name: 'Retire this task' }).click();
  await page.getByRole('button', { name: 'Yes, retire it' }).click();
  await until('it is gone', async () => (await page.locator(`[data-task="${key}"]`).count()) === 0);
  const machine = await server.get('/api/machines/m02');
  assert.ok(machine.retired.some((task) => task.key === key));
});

test('Own task: bad input is said beside its field, the first such field has the focus, nothing is sent', async ({
  page,
  server,
}) => {
  const before = (await server.get('/api/machines/m02')).tasks.length;
  await page.goto('/machine/m02/new-task');
  await page.locator('form').waitFor();
  await choosePerson(page);
  for (const [text, says] of [
    ['soon', /not a number/],
    ['1,500', /two ways.*1500/],
    ['1.234.567', /decimal mark/],
    ['0', /above zero/],
    ['1e309', /not a number/],
    ['', /Write a number/],
  ]) {
    await field(page, 'triggers.0.interval').fill(text);
    await page.getByRole('button', { name: 'Save the task' }).click();
    await until(`"${text}" is refused`, async () =>
      says.test(
        await field(page, 'triggers.0.interval-wrong')
          .innerText()
          .catch(() => ''),
      ),
    );
  }
  assert.match(await field(page, 'title-wrong').innerText(), /Write something/);
  assert.equal(await page.evaluate(() => document.activeElement.id), 'title');
  assert.equal(await field(page, 'title').getAttribute('aria-invalid'), 'true');
  const described = await field(page, 'title').getAttribute('aria-describedby');
  assert.ok(described.includes('title-wrong'));
  assert.equal((await server.get('/api/machines/m02')).tasks.length, before);
});

/** Somebody else makes the task's work 15 minutes, while the page is open. */
async function changeElsewhere(server, key, title) {
  const { value } = await server.send('PUT', `/api/machines/m02/tasks/${key}`, {
    ...{ id: newId(), by: 'Jorun Petschow', version: 1, title },
    ...{
      assembly: (await ownTask(server, title)).assembly,
      work: 'clean',
      skill: 'operator',
      energy: 'powered at rest',
    },
    ...{
      minutes: 15,
      triggers: [{ counter: 'operating', interval: 70 }],
      steps: [],
      reason: '',
      caution: '',
      parts: [],
    },
  });
  assert.equal(value.version, 2);
}

test('Own task: a change begins from what the server has, not from what the device kept', async ({ page, server }) => {
  const title = 'Dust the terminal box';
  const key = await addTask(page, title);
  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'title').waitFor();
  await page.goto('/');
  await changeElsewhere(server, key, title);
  await page.route('**/api/machines/m02', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 1_500));
    await route.continue();
  });
  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'minutes').waitFor();
  assert.equal(await field(page, 'minutes').inputValue(), '15');
});

test('Own task: what comes before it in a stop is chosen, shown, refused in a circle, and taken away', async ({
  page,
  server,
}) => {
  const drain = await addTask(page, 'Drain the hand tank');
  const fill = await addTask(page, 'Fill the hand tank');
  const change = async (key, act) => {
    await page.goto(`/machine/m02/change-task/${key}`);
    await act();
    await page.getByRole('button', { name: 'Save the task' }).click();
  };
  await change(fill, () => field(page, 'after').selectOption(drain));
  await page.locator(`[data-task="${fill}"] .done`).waitFor();
  assert.deepEqual((await taskOf(server, 'm02', fill)).after, [drain]);
  await until('it is shown', async () =>
    /Comes after, in a stop\s+Drain the hand tank/.test(await page.locator(`[data-task="${fill}"]`).innerText()),
  );

  await change(drain, () => field(page, 'after').selectOption(fill));
  await page.getByText('Not saved. The server says:').waitFor();
  assert.equal((await taskOf(server, 'm02', drain)).after, undefined);

  await change(fill, () => page.getByRole('button', { name: 'Take “Drain the hand tank” away' }).click());
  await page.locator(`[data-task="${fill}"] .done`).waitFor();
  assert.equal((await taskOf(server, 'm02', fill)).after, undefined);
});

test('Own task: two people at once: both versions are shown, and a person chooses', async ({ page, server }) => {
  const title = 'Empty the drip tray';
  const key = await addTask(page, title);
  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'title').waitFor();
  await field(page, 'minutes').fill('25');
  await changeElsewhere(server, key, title);
  await page.getByRole('button', { name: 'Save the task' }).click();
  const conflict = page.getByText('Somebody changed this task while you had it open');
  await conflict.waitFor();
  const rows = await page.locator('section.notice tbody tr').allInnerTexts();
  assert.ok(
    rows.some((row) => /Minutes of work\s+25\s+15/.test(row)),
    rows.join('\n'),
  );
  assert.equal((await taskOf(server, 'm02', key)).minutes, 15);
  await page.getByRole('button', { name: 'Save mine over it' }).click();
  await page.locator(`[data-task="${key}"]`).waitFor();
  assert.equal((await taskOf(server, 'm02', key)).minutes, 25);
});

test('Own task: readings with limits and the unit of a top up are added, refused beside their field, and taken away', async ({
  page,
  server,
}) => {
  const key = await addTask(page, 'Top up the hand pump');
  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'title').waitFor();
  await field(page, 'work').selectOption('top up');
  await field(page, 'quantityUnit').fill('ml');
  await page.getByRole('button', { name: 'Add a reading' }).click();
  await field(page, 'readings.0.what').fill('pump pressure');
  await field(page, 'readings.0.unit').fill('bar');
  await field(page, 'readings.0.actionMin').fill('3,5');
  await field(page, 'readings.0.warningMin').fill('3');
  await page.getByRole('button', { name: 'Save the task' }).click();
  await field(page, 'readings.0.actionMin-wrong').waitFor();
  await field(page, 'readings.0.warningMin').fill('4.25');
  await page.getByRole('button', { name: 'Save the task' }).click();
  await page.locator(`[data-task="${key}"] .done`).waitFor();
  const changed = await taskOf(server, 'm02', key);
  assert.equal(changed.quantity_unit, 'ml');
  assert.deepEqual(changed.readings, [
    { what: 'pump pressure', unit: 'bar', warning: { min: 4.25 }, action: { min: 3.5 } },
  ]);
  await page.goto(`/machine/m02/change-task/${key}`);
  await field(page, 'readings.0.what').waitFor();
  await page.getByRole('button', { name: 'Remove reading 1' }).click();
  await page.getByRole('button', { name: 'Save the task' }).click();
  await page.locator(`[data-task="${key}"] .done`).waitFor();
  assert.deepEqual((await taskOf(server, 'm02', key)).readings ?? [], []);
});
