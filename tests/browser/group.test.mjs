// The group's own site. Each test against a server of its own with two plants in one database.
import assert from 'node:assert/strict';
import { DESK, openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { GroupOfPlants } from './group_server.mjs';
import { measure } from './measure.mjs';
import { newId } from './scenes.mjs';
import { isReal } from './server.mjs';
import { test, until } from './suite.mjs';

const LEAD = 'Ada Brandt';
/** A plant is told of every 15 s, and what changed is asked for every 5 s. */
const TOLD_MS_MAX = 60_000;
const NARROW = { ...PHONE, viewport: { width: 320, height: 640 } };

/** A test of pages of the group and its plants; the invented shop is none. */
function groupTest(name, act, begin = () => GroupOfPlants.open()) {
  if (!isReal) return;
  test(name, async ({ browser }) => {
    const group = await begin();
    const pages = [];
    const open = async (url, place = DESK, more = {}) => {
      const page = await openPage(browser, url, place, more);
      pages.push(page);
      return page;
    };
    try {
      await act({ group, open, page: (place, more) => open(group.url, place, more) });
      for (const page of pages) assert.deepEqual(page.wrongs, [], 'a page did what it must not');
    } finally {
      for (const page of pages) await page.context().close();
      await group.stop();
    }
  });
}

const lineOf = (page, plant) => page.locator(`.line[data-plant="${plant}"]`);
/** All plants are listed, and their servers have told of them. */
const told = async (page) => {
  for (const plant of ['north', 'south'])
    await lineOf(page, plant)
      .getByText(/(run|läuft|laufen)/)
      .first()
      .waitFor({ timeout: TOLD_MS_MAX });
};

/** A page of a plant, in which its person has signed in. */
async function openPlant({ group, open }, plant) {
  const page = await open(group.urlOf(plant));
  await page.goto('/');
  await page.locator('[data-machine="m1"]').waitFor();
  return page;
}

/** That person finds something on the plant's first machine which stops it. */
async function find(page, what) {
  const at = new Date().toISOString();
  const finding = { id: newId(), by: LEAD, what, severity: 'stop the machine', at, sent_at: at };
  const status = await page.evaluate(async (body) => {
    const headers = { 'content-type': 'application/json' };
    return (await fetch('/api/machines/m1/findings', { method: 'POST', headers, body: JSON.stringify(body) })).status;
  }, finding);
  assert.equal(status, 200);
}

groupTest('Group: every plant is listed, and only what a group has is offered', async ({ page: open }) => {
  const page = await open();
  await page.goto('/');
  await told(page);
  assert.equal(await page.locator('.line[data-plant]').count(), 2);
  assert.match(await lineOf(page, 'north').innerText(), /North works[^]*0 of 2 run/);
  assert.deepEqual(await page.locator('nav a').allInnerTexts(), ['Plants', 'Horizon', 'Lives', 'Visits']);
  assert.equal(await page.locator('footer a[href="/access"]').count(), 1);
  await expectClean(page, 'plants');
  await page.locator('#find').fill('MILL');
  await until('south is left', async () => (await page.locator('.line[data-plant]').count()) === 1);
  assert.match(page.url(), /find=MILL/);
  await page.locator('#find').fill('no such plant');
  await page.getByRole('button', { name: 'Show all plants' }).click();
  assert.equal(await page.locator('.line[data-plant]').count(), 2);
});

groupTest('Group: a page that only plants have says whose site this is', async ({ page: open }) => {
  const page = await open();
  for (const address of ['/stores', '/machine/m1', '/rounds', '/today']) {
    await page.goto(address);
    await page.getByRole('heading', { name: 'This is the group’s site', level: 1 }).waitFor();
  }
  await expectClean(page, 'not of a group');
  await page.getByRole('link', { name: 'To the plants' }).click();
  await told(page);
});

groupTest('Group: the Horizon counts what the plants’ own Horizons hold', async ({ group, page: open }) => {
  const page = await open();
  await page.goto('/');
  await told(page);
  await page.getByRole('link', { name: 'Horizon' }).click();
  await page.locator('tbody tr').first().waitFor();
  const sums = new Array(13).fill(0).map(() => ({ tasks: 0, minutes: 0 }));
  for (const plant of ['north', 'south']) {
    const horizon = await group.get(plant, '/api/horizon');
    const dayOf = (date) => Date.parse(`${date}T00:00:00Z`) / 86_400_000;
    const today = dayOf(horizon.today);
    const monday = today - ((((today + 3) % 7) + 7) % 7);
    const weeks = new Array(13).fill(0).map(() => ({ tasks: 0, minutes: 0 }));
    for (const { minutes, forecast } of horizon.machines.flatMap((machine) => machine.tasks)) {
      const week = forecast.median === null ? -1 : Math.max(0, Math.floor((dayOf(forecast.median) - monday) / 7));
      if (weeks[week] === undefined) continue;
      for (const of of [weeks[week], sums[week]]) {
        of.tasks += 1;
        of.minutes += minutes;
      }
    }
    assert.ok(
      weeks.some(({ tasks }) => tasks > 0),
      'there is something to count',
    );
    const cells = page.locator(`tbody tr[data-plant="${plant}"] td`);
    assert.deepEqual(await wordsIn(cells), weeks.map(wordsOf), plant);
  }
  assert.deepEqual(
    await wordsIn(page.locator('[data-totals] td')),
    sums.map(({ tasks, minutes }) => `${tasks} ${(minutes / 60).toFixed(1)} h`),
  );
  await expectClean(page, 'horizon of plants');
});
const wordsOf = ({ tasks, minutes }) => (tasks === 0 ? '0' : `${tasks} ${(minutes / 60).toFixed(1)} h`);
const wordsIn = async (cells) => (await cells.allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim());

groupTest('Group: an entry at a plant moves the group’s line, which leads there', async (ground) => {
  const { group, page } = ground;
  const north = await openPlant(ground, 'north');
  const plants = await page();
  await plants.goto('/?attention=yes');
  await plants.getByText('No plant fits what you chose.').waitFor({ timeout: TOLD_MS_MAX });
  await plants.evaluate(() => (window.sameDocument = true));
  await find(north, 'Coolant on the floor');
  const line = lineOf(plants, 'north');
  await line.locator('[data-finding="stop the machine"]').waitFor({ timeout: TOLD_MS_MAX });
  assert.equal(await plants.evaluate(() => window.sameDocument), true, 'without a reload');
  assert.equal(await plants.locator('.line[data-plant]').count(), 1);

  assert.equal(await plants.locator('[data-plant-machine]').count(), 0, 'machines only where a plant is open');
  await line.getByRole('button', { name: 'North works' }).click();
  assert.match(plants.url(), /open=north/);
  const machine = plants.locator('[data-plant-machine]');
  assert.equal(await machine.count(), 1);
  assert.match(await machine.innerText(), /Lathe 1[^]*1 finding:[^]*stop the machine/);
  await expectClean(plants, 'a plant, open');
  // The way to the plant's site, for whoever has signed in there.
  const machinePage = await machine.getByRole('link', { name: 'Lathe 1' }).getAttribute('href');
  assert.equal(machinePage, `${group.urlOf('north')}/machine/m1`);
  await north.goto(machinePage);
  await north.getByText('Coolant on the floor').first().waitFor();
  const site = await plants.getByRole('link', { name: 'Open North works' }).getAttribute('href');
  assert.equal(site, `${group.urlOf('north')}/`);
});

groupTest('Group: the most pressing plant comes first', async (ground) => {
  const south = await openPlant(ground, 'south');
  const plants = await ground.page();
  await plants.goto('/');
  await told(plants);
  const order = () => plants.locator('.line[data-plant]').evaluateAll((lines) => lines.map((one) => one.dataset.plant));
  assert.deepEqual(await order(), ['north', 'south'], 'nothing presses: by their titles');
  await find(south, 'Way cover torn');
  await until('south is first', async () => (await order())[0] === 'south', TOLD_MS_MAX);
});

groupTest('Group: by the keyboard from a plant to its machine, and through the Horizon', async (ground) => {
  await find(await openPlant(ground, 'north'), 'Coolant on the floor');
  const page = await ground.page();
  await page.goto('/');
  await told(page);
  await lineOf(page, 'north').locator('[data-finding]').waitFor({ timeout: TOLD_MS_MAX });
  await page.locator('#find').focus();
  const focused = () => page.evaluate(() => document.activeElement.textContent.trim());
  await until('the plant is reached', async () => {
    await page.keyboard.press('Tab');
    return (await focused()) === 'North works';
  });
  await page.keyboard.press('Enter');
  await page.locator('[data-plant-machine]').first().waitFor();
  await page.keyboard.press('Tab');
  assert.equal(await focused(), 'Open North works');
  await page.keyboard.press('Tab');
  assert.equal(await focused(), 'Lathe 1');

  await page.goto('/horizon');
  await page.locator('tbody tr').first().waitFor();
  await page.locator('#find').focus();
  await page.keyboard.press('Tab');
  assert.equal(await focused(), 'North works');
  for (const key of ['ArrowDown', 'ArrowRight', 'ArrowRight', 'ArrowUp']) await page.keyboard.press(key);
  const cell = page.locator('tbody tr[data-plant="north"] td').nth(1).locator('a');
  assert.equal(await cell.evaluate((one) => one === document.activeElement), true);
  assert.match(await cell.getAttribute('href'), /\/\/north\.localhost:\d+\/horizon\?as=list&by=\d{4}-\d\d-\d\d$/);
});

/** A stop of that machine in a month's time, with a task that the outside service does; gives back its id and day. */
async function agreeOutside(page, task) {
  const on = new Date(Date.now() + 30 * 86_400_000).toISOString().slice(0, 10);
  const stop = { id: newId(), by: LEAD, on, shift: '', tasks: [task] };
  const answer = await page.evaluate(async (body) => {
    const headers = { 'content-type': 'application/json' };
    const told = await fetch('/api/machines/m1/stops', { method: 'POST', headers, body: JSON.stringify(body) });
    return [told.status, await told.text()];
  }, stop);
  assert.equal(answer[0], 200, answer[1]);
  return stop;
}

groupTest('Group: visits of the outside service are gathered, and clash where two plants want it', async (ground) => {
  const { group } = ground;
  const first = await ground.page();
  await first.goto('/visits');
  await first.getByText('No agreed stop of any plant needs the outside service.').waitFor({ timeout: TOLD_MS_MAX });
  const north = await agreeOutside(await openPlant(ground, 'north'), 'cabinet-service');
  await first.locator('[data-plant="north"]').waitFor({ timeout: TOLD_MS_MAX });
  assert.equal(await first.locator('.clash').count(), 0);
  await agreeOutside(await openPlant(ground, 'south'), 'clamp-springs');
  await first.locator('.clash').waitFor({ timeout: TOLD_MS_MAX });
  assert.match(
    await first.locator('.clash').innerText(),
    /North works, South works at the same time: 2 people, or one of the visits on another day/,
  );
  const link = first.locator('[data-plant="north"]').getByRole('link', { name: 'Lathe 1' });
  assert.equal(await link.getAttribute('href'), `${group.urlOf('north')}/stop/${north.id}`);
  await expectClean(first, 'visits');
  for (const colorScheme of ['light', 'dark']) {
    const page = await ground.page(NARROW, { locale: 'de-DE', colorScheme });
    await page.goto('/visits');
    await page.getByText('zur selben Zeit').waitFor();
    await measure(page);
    await expectClean(page, 'Besuche');
  }
  const desk = await ground.page(DESK, { colorScheme: 'dark' });
  await desk.goto('/visits');
  await desk.locator('.clash').waitFor();
  await expectClean(desk, 'visits, dark');
});

groupTest('Group: German fits 320 px, light and dark, and no finding', async (ground) => {
  await find(await openPlant(ground, 'north'), 'Kühlmittel auf dem Boden');
  for (const colorScheme of ['light', 'dark']) {
    const page = await ground.page(NARROW, { locale: 'de-DE', colorScheme });
    await page.goto('/?open=north');
    await told(page);
    await page.getByRole('heading', { name: 'Werke', level: 1 }).waitFor();
    await page.locator('[data-plant-machine]').first().waitFor({ timeout: TOLD_MS_MAX });
    await measure(page);
    await expectClean(page, 'Werke');
    await page.goto('/horizon');
    await page.locator('tbody tr').first().waitFor();
    await measure(page);
    await expectClean(page, 'Horizont');
    // What is wider scrolls inside its own box.
    const last = page.locator('tbody tr').first().locator('td a').last();
    await last.scrollIntoViewIfNeeded();
    const { x, width } = await last.boundingBox();
    assert.ok(x >= 0 && x + width <= 320, `${x} + ${width}`);
    await page.goto('/stores');
    await page.getByText('Das ist die Seite der Gruppe').waitFor();
    await measure(page);
  }
});

const lathes = (page) => page.locator('[data-part="lathe/batteries"]');
/** The group's server has read all that both plants have replaced. */
async function readLives(page) {
  const all = ({ parts }) =>
    parts.length === 2 && parts.every(({ kind, lives }) => lives === (kind === 'lathe' ? 51 : 42));
  await until(
    'the lives are read',
    async () => all(await page.evaluate(async () => (await fetch('/api/group/lives')).json())),
    TOLD_MS_MAX,
  );
}

groupTest(
  'Group: parts whose lives differ between plants are told apart from those of which all may speak',
  async ({ group, page: open }) => {
    const page = await open();
    await page.goto('/');
    await told(page);
    await readLives(page);
    await page.getByRole('link', { name: 'Lives', exact: true }).click();
    await lathes(page).waitFor();
    assert.match(await lathes(page).innerText(), /North works sees more failures[^]*South works fewer/);
    const sections = await page.locator('main section').allInnerTexts();
    assert.match(sections[0], /^The plants differ\n[^]*Lathe/);
    assert.match(sections[1], /^No difference that the data show\n[^]*With 36 failures only a great one would/);
    await expectClean(page, 'lives of plants');
    await page.locator('#find').fill('machining');
    await until('the lathes are left out', async () => (await page.locator('[data-part]').count()) === 1);
    await page.locator('#find').fill('');

    await lathes(page).getByRole('link').click();
    await page.locator('[data-verdict="differ"]').waitFor();
    assert.equal(await page.locator('figure').count(), 2);
    const row = async (of) => (await page.locator(`tbody tr[${of}]`).innerText()).replace(/\s+/g, ' ');
    assert.match(await row('data-plant="north"'), /North works 30 of 33 .* d to .* d/);
    assert.match(await row('data-plant="south"'), /South works 15 of 18/);
    assert.match(await row('data-together'), /45 of 51/);
    await page.locator('[data-working] summary').click();
    const working = page.locator('[data-working]');
    assert.match(await working.innerText(), /Log-rank test\s+chi-squared \d[^]*Test of Weibull fits\s+chi-squared \d/);
    await expectClean(page, 'lives of a part over plants');
    const north = await page.locator('tr[data-plant="north"] a').getAttribute('href');
    assert.equal(north, `${group.urlOf('north')}/lives/lathe/batteries`);
  },
  () => GroupOfPlants.withLives(),
);

groupTest(
  'Group: lives over the plants fit 320 px in German, light and dark, with no finding',
  async ({ page: open }) => {
    for (const colorScheme of ['light', 'dark']) {
      const page = await open(NARROW, { locale: 'de-DE', colorScheme });
      await page.goto('/');
      await told(page);
      await readLives(page);
      await page.goto('/lives');
      await lathes(page).getByText('Die Werke unterscheiden sich').waitFor();
      await measure(page);
      await expectClean(page, 'Lebensdauern der Werke');
      await lathes(page).getByRole('link').click();
      await page.locator('[data-working] summary').click();
      await measure(page);
      await expectClean(page, 'ein Teil in allen Werken');
    }
  },
  () => GroupOfPlants.withLives(),
);
