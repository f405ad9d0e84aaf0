// Walking rounds in the tests: finding one that nobody has walked, answering checks, and what the server has of it.
import { until } from './suite.mjs';

const picked = new Set();

/** Every round with its machine, as the server has them now. */
export async function roundsOf(server) {
  const { machines } = await server.get('/api/rounds');
  return machines.flatMap((machine) => machine.rounds.map((round) => ({ machine, round })));
}

/** A round in a turn that runs, in which nothing is answered, that fits and that no test has picked before. */
export async function pickRound(server, fits = () => true) {
  const isFresh = ({ machine, round }) =>
    !picked.has(`${machine.machine}/${round.rhythm}`) && round.now !== null && round.now.answers.length === 0;
  const found = (await roundsOf(server)).find((one) => isFresh(one) && fits(one.round));
  if (!found) throw new Error('no round of this shop fits');
  picked.add(`${found.machine.machine}/${found.round.rhythm}`);
  return found;
}

export const addressOf = ({ machine, round }) =>
  `/machine/${machine.machine}/round/${round.rhythm.replaceAll(' ', '-')}`;

/** The turn that runs, as the server has it. */
export async function turnOf(server, { machine, round }) {
  const { machines } = await server.get(`/api/rounds?machine=${machine.machine}`);
  return machines[0].rounds.find((one) => one.rhythm === round.rhythm).now;
}

/** The logbook's entries of the round's walks. */
export async function entriesOf(server, { machine, round }) {
  const { entries } = await server.get(`/api/logbook?machine=${machine.machine}&count=500`);
  return entries.filter((entry) => entry.walk !== undefined && entry.rhythm === round.rhythm);
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

export async function pressAnswer(page, check) {
  const card = ready(page);
  if (check.kind === 'reading') await page.locator('#reading').fill(String(goodValue(check)));
  if (check.kind === 'top up' && check.quantity_unit) await page.locator('#quantity').fill('0,5');
  await card.locator('.main.answer').click();
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
