import assert from 'node:assert/strict';
import { choosePerson } from './people.mjs';
import { findTask, onCounter, pickTask, openTask, taskOf } from './scenes.mjs';
import { test, until } from './suite.mjs';

const saved = (row) => row.locator('.saved:not(.kept)').waitFor();

/** How many entries a task has, and of which kinds. */
async function kindsOf(server, task) {
  const { entries } = await server.get(`/api/machines/${task.machine}`);
  return entries.filter((one) => one.task === task.key).map((one) => one.kind);
}

test('Done: one tap enters who, when and at which hours; Undo takes it back', async ({ page, server }) => {
  const { task } = await pickTask(server, (one) => onCounter(one) && one.state === 'coming');
  const before = await kindsOf(server, task);
  const row = await openTask(page, task);
  const person = await choosePerson(page);
  await row.locator('.done .main').click();
  await saved(row);
  assert.match(
    await row.locator('.saved').innerText(),
    new RegExp(`Saved: .*${person}.*\\d\\d:\\d\\d, at [\\d\\s]+\\.\\d\\sh`),
  );
  const done = await taskOf(server, task.machine, task.key);
  assert.equal(done.last_done.by, person);
  assert.ok(done.triggers.find((one) => one.leads).share_used < 0.01);
  assert.match(await row.locator('.undo').innerText(), /\d+ seconds? left to undo/);
  await row.locator('.undo').click();
  await until('it is undone', async () => (await row.locator('.saved').innerText()).startsWith('Undone'));
  const back = await taskOf(server, task.machine, task.key);
  assert.equal(back.state, task.state);
  assert.deepEqual((await kindsOf(server, task)).sort(), [...before, 'task done', 'undone'].sort());
});

test('Done: kept on the device at once, and nothing is shown as saved before the server said so', async ({
  page,
  server,
}) => {
  const { task } = await pickTask(server, (one) => one.state === 'in hand');
  const before = await kindsOf(server, task);
  const row = await openTask(page, task);
  await choosePerson(page);
  let letGo;
  const held = new Promise((resolve) => (letGo = resolve));
  await page.route('**/done', async (route) => {
    await held;
    await route.continue();
  });
  await row.locator('.done .main').click();
  await row.locator('.saved.kept').waitFor();
  assert.match(await row.locator('.saved').innerText(), /Kept on this device, not sent yet/);
  assert.match(await page.locator('.unsent').innerText(), /1 not sent/);
  assert.equal(await row.locator('.undo').count(), 0);
  letGo();
  await row.locator('.undo').waitFor();
  assert.match(await row.locator('.saved').innerText(), /^Saved/);
  assert.deepEqual((await kindsOf(server, task)).sort(), [...before, 'task done'].sort());
});

test('Done: when the answer is lost it is sent again by itself, and nothing is entered twice', async ({
  page,
  server,
}) => {
  const { task } = await pickTask(server, (one) => one.state === 'in hand' && onCounter(one));
  const before = await kindsOf(server, task);
  const row = await openTask(page, task);
  await choosePerson(page);
  let tries = 0;
  await page.route('**/done', async (route) => {
    tries += 1;
    if (tries > 1) return route.continue();
    await route.fetch(); // It reached the server, and the answer does not come back.
    return route.abort('connectionreset');
  });
  await row.locator('.done .main').click();
  await row.locator('.saved.kept').waitFor();
  await until('it is saved', async () => (await row.locator('.saved').innerText()).startsWith('Saved'));
  assert.equal(tries, 2);
  assert.deepEqual((await kindsOf(server, task)).sort(), [...before, 'task done'].sort());
});

test('Done: a refusal is shown in the server’s words', async ({ page, server }) => {
  const { task } = await pickTask(server, (one) => one.state === 'in hand');
  const before = await kindsOf(server, task);
  const row = await openTask(page, task);
  await choosePerson(page);
  const problem = { type: '/problems/x', title: 'Refused', status: 409, detail: 'The task is retired.' };
  await page.route('**/done', (route) =>
    route.fulfill({ status: 409, contentType: 'application/problem+json', body: JSON.stringify(problem) }),
  );
  await row.locator('.done .main').click();
  await row.locator('.notice.trouble').waitFor();
  assert.match(await row.locator('.notice.trouble').innerText(), /The task is retired\./);
  assert.match(await page.locator('.unsent').innerText(), /refused/);
  assert.deepEqual(await kindsOf(server, task), before);
});

test('Done: after ten seconds the page offers no Undo any more', async ({ page, server }) => {
  const { task } = await pickTask(server, (one) => one.state === 'in hand');
  const row = await openTask(page, task);
  await choosePerson(page);
  await row.locator('.done .main').click();
  await row.locator('.undo').waitFor();
  await until('the time is over', async () => (await row.locator('.undo').count()) === 0);
  assert.match(await row.innerText(), /time to undo is over/);
});

test('Done: cautions and the builder’s manual stand before Done where the machine must be isolated', async ({
  page,
  server,
}) => {
  const { task } = await findTask(server, (one) => one.energy === 'isolated' && one.caution !== '');
  const row = await openTask(page, task);
  const care = row.locator('.notice.care');
  const text = await care.innerText();
  for (const part of ['Isolate and lock out', task.caution, 'builder’s manual']) assert.ok(text.includes(part), text);
  const [careBox, doneBox] = [await care.boundingBox(), await row.locator('.done .main').boundingBox()];
  assert.ok(careBox.y + careBox.height <= doneBox.y);
});

test('Working: interval minus used is left, and the counter’s parts add up', async ({ page, server }) => {
  const { task } = await findTask(server, (one) => onCounter(one) && one.triggers.length === 1);
  const row = await openTask(page, task);
  const value = (text) => Number(text.replace(/[\s\u202f\u00a0h]/g, '').replace('−', '-'));
  const amounts = (await row.locator('.trigger table .number').allInnerTexts()).map(value);
  const [now, then, used, interval, left] = amounts.filter((one) => !Number.isNaN(one)).slice(-5);
  assert.ok(Math.abs(now - then - used) < 0.16, `${now} - ${then} = ${used}`);
  assert.ok(Math.abs(interval - used - left) < 0.16, `${interval} - ${used} = ${left}`);
});
