import assert from 'node:assert/strict';
import { DESK, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';
import { test, until } from './suite.mjs';

const pad = (page) => page.locator('.pad');
const pointOf = async (server, machine, number) =>
  (await server.get(`/api/machines/${machine}`)).points.find((point) => point.number === number);

async function openChange(page, machine) {
  await page.goto(`/machine/${machine}/change-plan`);
  await pad(page).waitFor();
}

/** Taps the plan at a share of its width and depth. */
async function tapAt(page, x, y) {
  const box = await page.locator('.pad svg').boundingBox();
  await page.mouse.click(box.x + x * box.width, box.y + y * box.height);
}

test('Change the plan: a point is chosen, tapped to its new place and saved with who', async ({ page, server }) => {
  await page.goto('/machine/m09');
  await page.getByRole('link', { name: 'Change the plan' }).click();
  await pad(page).waitFor();
  const person = await choosePerson(page);
  await page.locator('#moved-point').selectOption('2');
  await tapAt(page, 0.25, 0.75);
  await page.getByText('Moved, not saved yet: point 2').waitFor();
  await page.getByRole('button', { name: 'Save the new places' }).click();
  await until('it is saved', async () => (await page.getByText('not saved yet').count()) === 0);
  const { x, y } = await pointOf(server, 'm09', 2);
  assert.ok(Math.abs(x - 0.25) < 0.02 && Math.abs(y - 0.75) < 0.02, `${x} ${y}`);
  const { entries } = await server.get('/api/machines/m09');
  assert.equal(entries[0].kind, 'points moved');
  assert.equal(entries[0].by, person);
});

test('Change the plan: by the keyboard and by buttons in small steps; put back sends nothing', async ({
  page,
  server,
}) => {
  const before = await pointOf(server, 'm10', 1);
  await openChange(page, 'm10');
  await choosePerson(page);
  await page.locator('#moved-point').selectOption('1');
  await pad(page).focus();
  const way = before.x > 0.5 ? 'ArrowLeft' : 'ArrowRight';
  const sign = before.x > 0.5 ? -1 : 1;
  await page.keyboard.press(way);
  await page.keyboard.press(`Shift+${way}`);
  await page.getByRole('button', { name: before.y > 0.5 ? 'a step to the back' : 'a step to the front' }).click();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Put all back' }).click();
  await until('nothing is moved', async () => (await page.getByText('not saved yet').count()) === 0);
  assert.deepEqual(await pointOf(server, 'm10', 1), before);
  await pad(page).focus();
  await page.keyboard.press(`Shift+${way}`);
  await page.getByRole('button', { name: 'Save the new places' }).click();
  await until('it is saved', async () => (await pointOf(server, 'm10', 1)).x !== before.x);
  const after = await pointOf(server, 'm10', 1);
  assert.ok(Math.abs(after.x - before.x - sign * 0.05) < 0.0011, `${before.x} ${after.x}`);
  assert.ok(Math.abs(after.y - before.y) < 0.0011);
});

test('Change the plan: without a chosen point a tap chooses the nearest and moves nothing', async ({
  page,
  server,
}) => {
  const { x, y } = await pointOf(server, 'm11', 3);
  await openChange(page, 'm11');
  await tapAt(page, x, y);
  await until('it is chosen', async () => (await page.locator('#moved-point').inputValue()) === '3');
  assert.equal(await page.getByText('not saved yet').count(), 0);
});

test('Change the plan: the walking order by hand, then computed again', async ({ page, server }) => {
  const walkOf = async () => server.get('/api/machines/m09');
  const { walk } = await walkOf();
  await openChange(page, 'm09');
  await choosePerson(page);
  const third = page.locator('[data-walk]').nth(2);
  const number = Number(await third.getAttribute('data-walk'));
  await third.locator('.earlier').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter'); // The focus went along with the point.
  assert.equal(Number(await page.locator('[data-walk]').first().getAttribute('data-walk')), number);
  await page.getByRole('button', { name: 'Save this order' }).click();
  await page.getByText('Chosen by a person').waitFor();
  const byHand = await walkOf();
  assert.deepEqual(byHand.walk, [number, ...walk.filter((one) => one !== number)]);
  assert.equal(byHand.walk_by_hand, true);
  await page.getByRole('button', { name: 'Compute the order again' }).click();
  await page.getByText('Computed from the places').waitFor();
  assert.equal((await walkOf()).walk_by_hand, false);
});

test('Plan: tapping a point shows its checks, its tasks and its open findings', async ({ page, server }) => {
  const machine = await server.get('/api/machines/m12');
  const CHECK = ['1 start-up', '1 shift', '1 day', '1 week'];
  const isCheck = (task) => task.triggers.some((one) => CHECK.includes(one.calendar));
  const at = (number) => machine.tasks.filter((task) => task.point === number);
  const point = machine.points.find(({ number }) => at(number).some(isCheck));
  const { people } = await server.get('/api/shop');
  const finding = {
    id: newId(),
    by: people[0].name,
    what: 'Drip below the hose',
    severity: 'watch',
    point: point.number,
  };
  const made = await server.send('POST', '/api/machines/m12/findings', finding);
  assert.equal(made.status, 200, JSON.stringify(made.value));
  await page.goto('/machine/m12');
  await page.locator(`[data-point="${point.number}"]`).click();
  const told = page.locator('#points .tasks');
  await told.getByText('Drip below the hose').waitFor();
  assert.match(await told.innerText(), /Open findings[\s\S]*Checks of rounds/);
  assert.match(await page.locator(`[data-point="${point.number}"]`).innerText(), /1 finding/);
  assert.equal(await told.locator('.task').count(), at(point.number).length);
});

async function visit({ page }, isPhone) {
  await openChange(page, 'm10');
  await page.locator('#moved-point').selectOption('4');
  await tapAt(page, 0.4, 0.4);
  await page.locator('.later').first().click();
  if (isPhone) await measure(page);
  await expectClean(page, 'change the plan');
  const save = await page.locator('.main').first().boundingBox();
  if (isPhone) assert.ok(save.height >= 96, `Save is ${save.height} px high`);
}

for (const [place, options] of Object.entries({ desk: DESK, phone: PHONE }))
  for (const context of [
    { colorScheme: 'light' },
    { colorScheme: 'dark', locale: 'de-DE' },
    { forcedColors: 'active' },
  ])
    test(
      `Change the plan: no finding, and on a phone large and apart, ${place}, ${Object.values(context)[0]}`,
      (ground) => visit(ground, place === 'phone'),
      { place: options, context },
    );
