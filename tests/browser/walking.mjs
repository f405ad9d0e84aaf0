// Walking rounds in the tests: finding one that nobody has walked, answering checks, and what the server has of it.
import { newId } from './scenes.mjs';
import { until } from './suite.mjs';

const AIR = { what: 'supply air', unit: 'bar', warning: { min: 5.5 }, action: { min: 5 } };

/** One task for each kind of check; called for before each start-up, so that their round is there at any time. */
const TASKS = [
  { title: 'Look over the door and its window', work: 'inspect' },
  { title: 'Wipe the chip guard', work: 'clean' },
  { title: 'Fill up the lamp oil', work: 'top up', quantity_unit: 'l' },
  { title: 'Read the air gauge', work: 'measure', readings: [AIR] },
  { title: 'Listen at the gearbox', work: 'inspect' },
];

async function addTask(server, machine, { title, ...more }, index) {
  const { number, assembly } = machine.points[index];
  const { status, value } = await server.send('POST', `/api/machines/${machine.key}/tasks`, {
    ...{ id: newId(), by: server.people[0], title, assembly, point: number, ...more },
    ...{ skill: 'operator', energy: 'powered at rest', minutes: 2, triggers: [{ calendar: '1 start-up' }] },
    ...{ steps: ['Take a lamp', 'Look closely'], caution: 'Keep the hands out of the door’s way.' },
  });
  if (status !== 200) throw new Error(`${title}: ${status} ${JSON.stringify(value)}`);
}

let given = 0;

/** A round of six checks of every kind at a machine that no test has had before, in which nothing is answered. */
export async function pickRound(server) {
  const { people } = await server.get('/api/shop');
  server.people = people.map((person) => person.name);
  const { machines } = await server.get('/api/floor');
  const key = machines[given++]?.key;
  if (key === undefined) throw new Error('every machine has had a test; let some tests share a round');
  const machine = await server.get(`/api/machines/${key}`);
  for (const [index, task] of TASKS.entries()) await addTask(server, machine, task, index);
  const found = (await server.get(`/api/rounds?machine=${key}`)).machines[0];
  const { entries } = await server.get(`/api/machines/${key}`);
  return {
    machine: found,
    round: found.rounds.find((round) => round.rhythm === 'before start-up'),
    before: new Set(entries.map((entry) => entry.id)),
  };
}

let shared = null;

/** A round for tests that leave it as it is. */
export async function sharedRound(server) {
  shared ??= await pickRound(server);
  return shared;
}

export const addressOf = ({ machine, round }) =>
  `/machine/${machine.machine}/round/${round.rhythm.replaceAll(' ', '-')}`;

/** The turn that runs, as the server has it. */
export async function turnOf(server, { machine, round }) {
  const { machines } = await server.get(`/api/rounds?machine=${machine.machine}`);
  return machines[0].rounds.find((one) => one.rhythm === round.rhythm).now;
}

/** The entries of the round's walks since it was picked. */
export async function entriesOf(server, { machine, round, before }) {
  const { entries } = await server.get(`/api/machines/${machine.machine}`);
  return entries.filter((entry) => entry.rhythm === round.rhythm && !before.has(entry.id));
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

/** The worker answers for this page, and the rounds are on the device. */
export async function keptForOffline(page) {
  await page.goto('/rounds');
  await page.locator('[data-kept="true"]').waitFor();
  await until('the worker is in charge', () =>
    page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      return navigator.serviceWorker.controller !== null;
    }),
  );
}
