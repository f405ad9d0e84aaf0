import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { DESK, openPage, PHONE } from './chromium.mjs';
import { expectClean } from './clean.mjs';
import { measure } from './measure.mjs';
import { choosePerson } from './people.mjs';
import { test, until } from './suite.mjs';
import {
  addressOf,
  allSent,
  answeredCount,
  answerOpen,
  entriesOf,
  openCheck,
  openRound,
  pickRound,
  fillIn,
  pressAnswer,
  ready,
  sharedRound,
  turnOf,
} from './walking.mjs';

const MAIN_PX = 96;
const isAir = (check) => check.reading?.action?.min > 0;

async function begin(page, found) {
  await openRound(page, found);
  const person = await choosePerson(page);
  return { found, person };
}

/** Opens the first check that fits by tapping its row, unless it is open. */
async function open(page, found, fits) {
  const check = found.round.checks.find(fits);
  if ((await openCheck(page)) !== check.key) await page.locator(`button[data-check="${check.key}"]`).click();
  await page.locator(`.card[data-check="${check.key}"][data-ready="true"]`).waitFor();
  return check;
}

test('Round: one press a check, in walking order, to the end; the server has each once', async ({ page, server }) => {
  const { found, person } = await begin(page, await pickRound(server));
  const walked = [];
  while ((await openCheck(page)) !== null) walked.push(await answerOpen(page, found));
  assert.deepEqual(
    walked,
    found.round.checks.map((check) => check.key),
  );
  await allSent(page);
  const end = await page.locator('.end').innerText();
  assert.match(end, /The round is walked/);
  assert.match(end, new RegExp(`${person}: ${walked.length} check`));
  const turn = await turnOf(server, found);
  assert.equal(turn.state, 'walked');
  assert.deepEqual(turn.answers.map((one) => one.check).sort(), walked.toSorted());
  const kinds = (await entriesOf(server, found)).map((entry) => entry.kind);
  assert.deepEqual(kinds.sort(), ['round begun', ...walked.map(() => 'check answered')].sort());
});

test('Round: one press for the rest says how many, and that readings are not read; exactly that is recorded', async ({
  page,
  server,
}) => {
  const { found } = await begin(page, await pickRound(server));
  const first = await answerOpen(page, found);
  const rest = found.round.checks.filter((check) => check.key !== first);
  const readings = rest.filter((check) => check.kind === 'reading').length;
  const words = await page.locator('.others').innerText();
  assert.match(words, new RegExp(`All ${rest.length} others as they should be`));
  if (readings > 0) assert.match(words, new RegExp(`${readings} of them (is a reading|are readings).*not read`));
  await page.locator('.others[data-ready="true"]').click();
  await page.locator('.end').waitFor();
  await allSent(page);
  const others = (await entriesOf(server, found)).filter((entry) => entry.kind === 'others as they should be');
  assert.equal(others.length, 1);
  assert.deepEqual(others[0].answers.map((one) => one.check).sort(), rest.map((check) => check.key).sort());
  assert.ok(others[0].answers.every((one) => one.answer === 'as it should be' && one.value === undefined));
  assert.equal((await turnOf(server, found)).state, 'walked');
});

test('Round: impossible readings are refused where they are typed, with what would be right', async ({
  page,
  server,
}) => {
  const { found } = await begin(page, await sharedRound(server));
  const check = await open(page, found, (one) => one.kind === 'reading');
  const { unit } = check.reading;
  for (const [typed, says] of [
    ['', /Write a number/],
    ['much', /is no number.*for example/],
    ['1e309', /is no number/],
    ['1,234', /two ways; write 1234, or 1,2340/],
    ['12 psi', new RegExp(`not its unit; read it in ${unit}`)],
    ['9'.repeat(30), /more than any gauge/],
  ]) {
    await page.locator('#reading').fill(typed);
    await ready(page).locator('.main.answer').click();
    await until(`${typed} is refused`, async () => says.test((await page.locator('.wrong').allInnerTexts()).join()));
    assert.equal(await page.evaluate(() => document.activeElement.id), 'reading');
  }
  assert.equal(await answeredCount(page), 0);
  assert.equal((await turnOf(server, found)).answers.length, 0);
});

test('Round: a reading is judged as it is typed; beyond action the finding goes with it, together', async ({
  page,
  server,
}) => {
  const { found, person } = await begin(page, await pickRound(server));
  const check = await open(page, found, isAir);
  const low = check.reading.action.min / 2;
  await page.locator('#reading').fill(String(low).replace('.', ','));
  assert.match(await page.locator('.judged').innerText(), /below the action limit/);
  assert.equal(await page.locator('.judged').getAttribute('data-state'), 'action');
  await ready(page).locator('.main.answer').click();
  assert.match(await page.locator('.card .wrong').innerText(), /Choose one of these/);
  await page.getByRole('radio', { name: 'before next shift' }).check({ force: true });
  await ready(page).locator('.main.answer').click();
  await page.locator(`button[data-check="${check.key}"]`).waitFor();
  await allSent(page);
  const given = (await turnOf(server, found)).answers.find((one) => one.check === check.key);
  assert.deepEqual([given.value, given.state, given.by], [low, 'action', person]);
  const { findings } = await server.get(`/api/findings?machine=${found.machine.machine}`);
  const finding = findings.find((one) => one.check === check.key);
  assert.equal(finding.severity, 'before next shift');
  assert.match(finding.what, /below the action limit/);
  assert.equal(finding.walk, given.walk);
});

test('Round: a gauge that cannot be read is answered without a number, and its finding says so', async ({
  page,
  server,
}) => {
  const { found } = await begin(page, await pickRound(server));
  const check = await open(page, found, isAir);
  await ready(page).getByRole('button', { name: 'Cannot be read' }).click();
  await page.getByRole('radio', { name: 'at the next stop' }).check({ force: true });
  await page.locator('.card .main.answer').click();
  await page.locator(`button[data-check="${check.key}"]`, { hasText: 'Cannot be read' }).waitFor();
  await allSent(page);
  const given = (await turnOf(server, found)).answers.find((one) => one.check === check.key);
  assert.deepEqual([given.answer, given.value, given.state], ['not so', undefined, undefined]);
  const { findings } = await server.get(`/api/findings?machine=${found.machine.machine}`);
  assert.match(findings.find((one) => one.check === check.key).what, /supply air: cannot be read/);
});

test('Round: what is being written of a check that is not so outlives the tab, until it is settled', async ({
  page,
  server,
}) => {
  const { found } = await begin(page, await pickRound(server));
  const key = await openCheck(page);
  const check = found.round.checks.find((one) => one.key === key);
  const words = page.locator('#not-so-what');
  const write = async () => {
    await ready(page)
      .getByRole('button', { name: check.kind === 'reading' ? 'Cannot be read' : 'Not so' })
      .click();
    await words.fill('The seal hangs out at the left');
  };
  const isForgotten = async () => {
    await page.reload();
    await page.locator(`button[data-check="${key}"], .card[data-check="${key}"]`).first().waitFor();
    if ((await openCheck(page)) !== key) await page.locator(`button[data-check="${key}"]`).click();
    await page.locator(`.card[data-check="${key}"][data-ready="true"]`).waitFor();
    assert.equal(await words.count(), 0);
  };
  await write();
  await page.reload();
  await until('the words are there', async () => /seal hangs/.test(await words.inputValue()));
  await page.getByRole('button', { name: 'Back' }).click();
  await isForgotten();
  await write();
  await page.getByRole('button', { name: 'The finding is known; only the check' }).click();
  await until('the page has gone on', async () => (await openCheck(page)) !== key);
  await isForgotten();
});

/** A picture of noise, made by the page, larger than what may be sent. */
async function bigPicture(page) {
  const base64 = await page.evaluate(async () => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 2400, height: 1800 });
    const context = canvas.getContext('2d');
    const image = context.createImageData(2400, 1800);
    for (let at = 0; at < image.data.length; at += 65536) crypto.getRandomValues(image.data.subarray(at, at + 65536));
    context.putImageData(image, 0, 0);
    return canvas.toDataURL('image/jpeg', 0.95).split(',')[1];
  });
  return Buffer.from(base64, 'base64');
}

test('Round: not so with a photo; “stop the machine” says who decides and never that it is safe', async ({
  page,
  server,
}) => {
  const { found } = await begin(page, await pickRound(server));
  const check = await open(page, found, (one) => one.kind === 'look');
  await ready(page).locator('.not-so').click();
  await page.getByLabel('What is not as it should be?').fill('A shackle is bent');
  await page.getByRole('radio', { name: 'stop the machine' }).check({ force: true });
  assert.match(
    await page.locator('.card .notice.care').last().innerText(),
    /decided by the maintenance lead.*never says/s,
  );
  const buffer = await bigPicture(page);
  assert.ok(buffer.length > 1024 * 1024);
  await page.locator('#not-so-photo').setInputFiles({ name: 'a.jpg', mimeType: 'image/jpeg', buffer });
  await page.locator('.photos img').waitFor();
  await ready(page).locator('.main.answer').click();
  await page.locator(`button[data-check="${check.key}"]`).waitFor();
  await allSent(page);
  const { findings } = await server.get(`/api/findings?machine=${found.machine.machine}`);
  const finding = findings.find((one) => one.check === check.key);
  assert.deepEqual([finding.what, finding.severity, finding.owner], ['A shackle is bent', 'stop the machine', null]);
  const photo = await server.ask(`/api/photos/${finding.photos[0].id}`);
  const bytes = Buffer.from(await photo.arrayBuffer());
  assert.ok(bytes.length < 900 * 1024, `${bytes.length} bytes`);
  assert.equal(createHash('sha256').update(bytes).digest('hex'), finding.photos[0].sha256);
});

test('Round: answering again corrects; the logbook keeps both', async ({ page, server }) => {
  const { found } = await begin(page, await pickRound(server));
  const check = await open(page, found, (one) => one.kind === 'clean');
  await ready(page).locator('.main.answer').click();
  await page.locator(`button[data-check="${check.key}"]`).click();
  await ready(page).locator('.not-so').click();
  await page.getByRole('button', { name: 'only the check' }).click();
  await until('the row says so', async () =>
    /Not so/.test(await page.locator(`button[data-check="${check.key}"]`).innerText()),
  );
  await allSent(page);
  const mine = (await entriesOf(server, found)).filter((entry) => entry.answers?.[0]?.check === check.key);
  assert.deepEqual(mine.map((entry) => entry.answers[0].answer).sort(), ['as it should be', 'not so']);
  assert.equal((await turnOf(server, found)).answers[0].answer, 'not so');
});

test('Round: what was topped up is read with comma, or none was needed', async ({ page, server }) => {
  const { found } = await begin(page, await pickRound(server));
  const check = await open(page, found, (one) => one.quantity_unit !== undefined);
  await ready(page).locator('.main.answer').click();
  assert.match(await page.locator('.card .wrong').innerText(), /Write a number/);
  await page.locator('#quantity').fill('1,5');
  await ready(page).locator('.main.answer').click();
  await page.locator(`button[data-check="${check.key}"]`).click();
  await ready(page).getByRole('button', { name: 'None needed' }).click();
  await until('the row says so', async () =>
    /None needed/.test(await page.locator(`button[data-check="${check.key}"]`).innerText()),
  );
  await allSent(page);
  const quantities = (await entriesOf(server, found))
    .flatMap((entry) => entry.answers ?? [])
    .map((one) => one.quantity);
  assert.deepEqual(quantities.sort(), [0, 1.5]);
});

test('Round: two people walk the same round; both are recorded and no check is lost', async ({
  page,
  server,
  browser,
  url,
}) => {
  const { found, person } = await begin(page, await pickRound(server));
  const [, name] = await server.people.all();
  const other = await openPage(browser, url, PHONE, { as: name });
  try {
    await openRound(other, found);
    const last = found.round.checks.at(-1);
    await other.locator(`button[data-check="${last.key}"]`).click();
    await other.locator(`.card[data-check="${last.key}"][data-ready="true"]`).waitFor();
    await answerOpen(page, found);
    await pressAnswer(other, last);
    await until('each sees the other', async () =>
      (await page.locator('main').innerText()).includes(`${name} answered 1 of them.`),
    );
    while ((await openCheck(page)) !== null) await answerOpen(page, found);
    await until('the other sees the end', async () => (await other.locator('.end').count()) === 1);
    await allSent(page);
    const turn = await turnOf(server, found);
    assert.equal(turn.state, 'walked');
    assert.deepEqual(turn.walks.map((walk) => walk.by).sort(), [person, name].sort());
    assert.deepEqual(
      turn.answers.filter((one) => one.by === name).map((one) => one.check),
      [last.key],
    );
    assert.deepEqual(other.wrongs, []);
  } finally {
    await other.context().close();
  }
});

test('Round: a second press of a hurried finger answers no other check', async ({ page, server }) => {
  const { found } = await begin(page, await pickRound(server));
  await fillIn(page, found.round.checks[0]);
  const { x, y, width, height } = await page.locator('.card .main.answer').boundingBox();
  for (let press = 0; press < 3; press += 1) await page.mouse.click(x + width / 2, y + height / 2);
  await until('the first is answered', async () => (await answeredCount(page)) > 0);
  assert.equal(await answeredCount(page), 1);
});

test('Round: from the Floor to the end by the keyboard', async ({ page, server }) => {
  const { found } = await begin(page, await pickRound(server));
  for (let count = 0; count < found.round.checks.length; count += 1) {
    const key = await openCheck(page);
    const check = found.round.checks.find((one) => one.key === key);
    await fillIn(page, check);
    for (let tabs = 0; tabs < 250; tabs += 1) {
      await page.keyboard.press('Tab');
      if (await page.evaluate(() => document.activeElement.matches('.card .main.answer'))) break;
    }
    await page.keyboard.press('Enter');
    await until('the page has gone on', async () => (await page.locator(`.card[data-check="${key}"]`).count()) === 0);
  }
  assert.equal(await page.evaluate(() => document.activeElement.id), 'end-title');
});

test('Rounds: open ones come first with how far they are; the Floor and the machine lead to them', async ({
  page,
  server,
}) => {
  const found = await sharedRound(server);
  await page.goto('/rounds');
  await page.locator('[data-round]').first().waitFor();
  const states = await page.locator('[data-round]').evaluateAll((lines) => lines.map((line) => line.dataset.state));
  const order = ['open', 'walked', 'none runs'];
  assert.deepEqual(
    states,
    states.toSorted((a, b) => order.indexOf(a) - order.indexOf(b)),
  );
  const line = page.locator(`[data-round="${found.machine.machine}/${found.round.rhythm}"]`);
  assert.match(await line.innerText(), new RegExp(`0 of ${found.round.checks.length} answered`));
  await page.goto(`/machine/${found.machine.machine}`);
  await page.locator(`#rounds [data-round$="/${found.round.rhythm}"]`).click();
  await page.locator('.card').waitFor();
  assert.equal(new URL(page.url()).pathname, addressOf(found));
  await page.goto('/');
  await page.locator('[data-open-round]').first().click();
  await page.locator('.card').waitFor();
});

test('Rounds: missed turns are told as missed', async ({ page, server }) => {
  const { machines } = await server.get('/api/rounds');
  const missed = machines.flatMap(({ machine, rounds }) =>
    rounds
      .filter((round) => round.past.some((turn) => turn.state === 'missed'))
      .map((round) => `${machine}/${round.rhythm}`),
  );
  assert.ok(missed.length > 0, 'the shop has a missed round');
  await page.goto('/rounds');
  await page.locator(`[data-round="${missed[0]}"]`).waitFor();
  for (const key of missed.slice(0, 5)) assert.match(await page.locator(`[data-round="${key}"]`).innerText(), /missed/);
});

test(
  'Phone: controls of a round are large and apart, the answers the largest, and a press is seen within 100 ms',
  async ({ page, server }) => {
    await page.goto('/rounds');
    await page.locator('[data-round]').first().waitFor();
    await measure(page);
    const { found } = await begin(page, await sharedRound(server));
    await open(page, found, isAir);
    await measure(page);
    await page.locator('#reading').fill('0,1');
    await page.getByRole('radio', { name: 'stop the machine' }).check({ force: true });
    await measure(page);
    const main = ready(page).locator('.main.answer');
    const [box, card] = [await main.boundingBox(), await page.locator('.card').boundingBox()];
    assert.ok(box.height >= MAIN_PX && box.width > card.width - 40, `${box.width} x ${box.height}`);
    await main.scrollIntoViewIfNeeded();
    const ground = () => main.evaluate((button) => getComputedStyle(button).backgroundColor);
    const before = await ground();
    const now = await main.boundingBox();
    await page.mouse.move(now.x + 20, now.y + 20);
    await page.mouse.down();
    await until('the press is seen', async () => (await ground()) !== before);
    // The style sheet answers the press, so how long that takes is what it says of transitions.
    const slowest = await main.evaluate((button) => {
      const { transitionDuration, transitionDelay } = getComputedStyle(button);
      return Math.max(...`${transitionDuration}, ${transitionDelay}`.split(', ').map(parseFloat));
    });
    assert.ok(slowest <= 0.05, `${slowest} s`);
    await page.mouse.move(0, 0);
    await page.mouse.up();
  },
  { place: PHONE },
);

test(
  'Phone: a round is not cut off at 320 px',
  async ({ page, server }) => {
    await begin(page, await sharedRound(server));
    for (const path of ['/rounds', '/unsent', new URL(page.url()).pathname]) {
      await page.goto(path);
      await page.locator('h1').waitFor();
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(wide <= 0, `${path} is ${wide} px too wide`);
    }
  },
  { place: { ...PHONE, viewport: { width: 320, height: 640 } } },
);

async function visitRound({ page, server }) {
  await page.goto('/rounds');
  await page.locator('[data-round]').first().waitFor();
  await expectClean(page, 'rounds');
  const { found } = await begin(page, await sharedRound(server));
  await expectClean(page, 'round');
  await open(page, found, isAir);
  await page.locator('#reading').fill('0,1');
  await page.getByRole('radio', { name: 'stop the machine' }).check({ force: true });
  await expectClean(page, 'round, a reading beyond action');
  await page.locator('#reading').fill('much');
  await page.locator('#reading').blur();
  await expectClean(page, 'round, a reading refused');
  await page.context().setOffline(true);
  await page.locator('.others[data-ready="true"]').click();
  await page.locator('.end').waitFor();
  await expectClean(page, 'round, the end, offline');
}

for (const [name, place, context] of [
  ['desk, light', DESK, { colorScheme: 'light' }],
  ['phone, dark', PHONE, { colorScheme: 'dark' }],
  ['forced colours', PHONE, { forcedColors: 'active' }],
  ['more contrast', DESK, { contrast: 'more' }],
])
  test(`Access: no serious finding on the rounds, ${name}`, visitRound, { place, context });
