// Walking rounds in the tests: finding one that nobody has walked, answering checks, and what the server has of it.
import { newId } from './scenes.mjs';
import { until } from './suite.mjs';

const AIR = { what: 'supply air', unit: 'bar', warning: { min: 5.5 }, action: { min: 5 } };

/** One task for each kind of check. */
const TASKS = [
  { title: 'Look over the door and its window', work: 'inspect' },
  { title: 'Wipe the chip guard', work: 'clean' },
  { title: 'Fill up the lamp oil', work: 'top up', quantity_unit: 'l' },
  { title: 'Read the air gauge', work: 'measure', readings: [AIR] },
  { title: 'Listen at the gearbox', work: 'inspect' },
];

/** What calls for the round; on a day without shifts only a start-up does. */
const CALENDARS = { 'before start-up': '1 start-up', shift: '1 shift', day: '1 day', week: '1 week' };

async function sent(server, address, body) {
  const { status, value } = await server.send('POST', address, { id: newId(), by: server.names[0], ...body });
  if (status !== 200) throw new Error(`${address}: ${status} ${JSON.stringify(value)}`);
}

async function addTask(server, machine, { title, ...more }, calendar, index) {
  const { number, assembly } = machine.points[index];
  await sent(server, `/api/machines/${machine.key}/tasks`, {
    ...{ title, assembly, point: number, ...more },
    ...{ skill: 'operator', energy: 'powered at rest', minutes: 2, triggers: [{ calendar }] },
    ...{ steps: ['Take a lamp', 'Look closely'], caution: 'Keep the hands out of the door’s way.' },
  });
}

const roundsOf = async (server, key) => (await server.get(`/api/rounds?machine=${key}`)).machines[0];

/** A rhythm whose turn runs at the machine, and in which the demo's people have not set out. */
function freeRhythm({ rounds }) {
  return Object.keys(CALENDARS).find((rhythm) => {
    const round = rounds.find((one) => one.rhythm === rhythm);
    return round ? round.now?.state === 'open' && round.now.walks.length === 0 : rhythm === 'before start-up';
  });
}

/** How many machines of each server a test has had, and the round that tests share there. */
const given = new WeakMap();
const shared = new WeakMap();

/** Which turns run depends on the hour: a shop may have few machines that are free, and then another shop is opened. */
async function nextFree(server) {
  const found = await freeOf(server);
  if (found) return found;
  await server.stop();
  await server.start();
  given.set(server, 0);
  shared.delete(server);
  const another = await freeOf(server);
  if (!another) throw new Error('no machine of a new shop has a round that is free');
  return another;
}

async function freeOf(server) {
  const { machines } = await server.get('/api/floor');
  for (let next = given.get(server) ?? 0; next < machines.length;) {
    const { key } = machines[next++];
    given.set(server, next);
    const rhythm = freeRhythm(await roundsOf(server, key));
    if (rhythm) return { machine: await server.get(`/api/machines/${key}`), rhythm };
  }
  return null;
}

/** A round of six checks of every kind at a machine that no test has had before, in which nothing is answered. */
export async function pickRound(server) {
  const { people } = await server.get('/api/shop');
  server.names = people.map((person) => person.name);
  const { machine, rhythm } = await nextFree(server);
  const { key } = machine;
  const isOfIt = (task) => task.triggers.some(({ calendar }) => calendar === CALENDARS[rhythm]);
  // A check cannot go while its reading makes another task due.
  const needing = machine.tasks.filter((task) => task.triggers.some(({ reading }) => reading !== undefined));
  const checks = machine.tasks.filter((task) => isOfIt(task) && !needing.includes(task)).slice(1);
  for (const { key: task } of [...needing, ...checks])
    await sent(server, `/api/machines/${key}/tasks/${task}/retire`, {});
  for (const [index, task] of TASKS.entries()) await addTask(server, machine, task, CALENDARS[rhythm], index);
  const found = await roundsOf(server, key);
  const { entries } = await server.get(`/api/machines/${key}`);
  return {
    machine: found,
    round: found.rounds.find((round) => round.rhythm === rhythm),
    pickedAt: entries[0].at,
  };
}

/** A round for tests that leave it as it is. */
export async function sharedRound(server) {
  if (!shared.has(server)) shared.set(server, await pickRound(server));
  return shared.get(server);
}

export const addressOf = ({ machine, round }) =>
  `/machine/${machine.machine}/round/${round.rhythm.replaceAll(' ', '-')}`;

/** The turn that runs, as the server has it. */
export async function turnOf(server, { machine, round }) {
  const { machines } = await server.get(`/api/rounds?machine=${machine.machine}`);
  return machines[0].rounds.find((one) => one.rhythm === round.rhythm).now;
}

/** The entries of the round's walks since it was picked. */
export async function entriesOf(server, { machine, round, pickedAt }) {
  const { entries } = await server.get(`/api/machines/${machine.machine}`);
  return entries.filter((entry) => entry.rhythm === round.rhythm && entry.at > pickedAt);
}

export async function openRound(page, found) {
  await page.goto(addressOf(found));
  await page.locator('.card, .end').first().waitFor();
}

export const ready = (page) => page.locator('.card[data-ready="true"]');

/** The key of the open check; null at the end of the round. */
export async function openCheck(page) {
  await page.locator('.card[data-ready="true"], .end').first().waitFor();
  return (await page.locator('.card').count()) === 0 ? null : page.locator('.card').getAttribute('data-check');
}

/** Answers the open check as it should be, and waits until the page has gone on. */
export async function answerOpen(page, found) {
  const key = await openCheck(page);
  const check = found.round.checks.find((one) => one.key === key);
  await pressAnswer(page, check);
  await until('the page has gone on', async () => (await page.locator(`.card[data-check="${key}"]`).count()) === 0);
  return key;
}

/** What a check needs beside a press. */
export async function fillIn(page, check) {
  await ready(page).waitFor();
  if (check.kind === 'reading') await page.locator('#reading').fill(String(goodValue(check)));
  if (check.kind === 'top up' && check.quantity_unit) await page.locator('#quantity').fill('0,5');
}

export async function pressAnswer(page, check) {
  await fillIn(page, check);
  await ready(page).locator('.main.answer').click();
}

/** A value within the reading's limits, and one that its unit can have. */
export function goodValue({ reading, last }) {
  const { min, max } = reading.warning ?? reading.action ?? {};
  if (min !== undefined && max !== undefined) return Number(((min + max) / 2).toFixed(2));
  return min ?? max ?? last.at(-1)?.value ?? 5;
}

export const answeredCount = async (page) =>
  Number(await page.locator('[data-answered]').getAttribute('data-answered'));

/** Nothing waits on this device any more. */
export const allSent = (page, msMax = 90_000) =>
  until('everything is sent', async () => (await page.locator('.unsent').count()) === 0, msMax);

/** The keys of the round's checks as they lie on the device. It opens no store that the page has not made yet: that
 * would make an empty one, and the page would wait for it to be closed. */
const keptChecks = (page, { machine, round }) =>
  page.evaluate(
    async ({ store, key, rhythm }) => {
      const there = await indexedDB.databases();
      if (!there.some(({ name }) => name === store)) return undefined;
      const answer = (asking) =>
        new Promise((resolve, reject) => {
          asking.onerror = () => reject(asking.error);
          asking.onsuccess = () => resolve(asking.result);
        });
      const opened = await answer(indexedDB.open(store));
      const kept = await answer(opened.transaction('kept').objectStore('kept').get(`rounds/${key}`));
      opened.close();
      return kept?.value.rounds.find((one) => one.rhythm === rhythm)?.checks.map((check) => check.key);
    },
    { store: 'hourwright-kept', key: machine.machine, rhythm: round.rhythm },
  );

/** The round is on the device as it was picked, and the worker answers for this page. */
export async function keptForOffline(page, found) {
  await page.goto('/rounds');
  const wanted = String(found.round.checks.map((check) => check.key));
  await until('the round is kept', async () => String(await keptChecks(page, found)) === wanted);
  await servedByWorker(page);
}

/** The worker answers for this page. */
export const workerInCharge = (page) =>
  until('the worker is in charge', () =>
    page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      return navigator.serviceWorker.controller !== null;
    }),
  );

/** The worker answers for this page, and the rounds are on the device. */
export async function servedByWorker(page) {
  await page.locator('[data-kept="true"]').waitFor();
  await workerInCharge(page);
}
