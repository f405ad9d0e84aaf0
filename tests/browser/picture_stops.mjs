// The scenes of stops: the job card and closing it, the Horizon before and after a proposal; and Monday morning.
import { DESK, openPage } from './chromium.mjs';
import { walkMonday } from './monday.mjs';
import { choosePerson } from './people.mjs';
import { agreeStop, freeMachine } from './stop_scenes.mjs';

const THINK_MS_MAX = 60_000;

/** Agrees some stops, as a shop has them; gives the one whose card tells the most. */
export async function stopOfShop(server) {
  const isIsolated = (task) => task.energy === 'isolated';
  for (const days of [12, 19, 26]) await agreeStop(server, await freeMachine(server, undefined, 4), days);
  return (await agreeStop(server, await freeMachine(server, isIsolated, 6), 3)).id;
}

async function propose(page) {
  await page.locator('#propose-seconds').selectOption('5');
  await page.locator('.begin').click();
  await page.locator('[data-proposal="ready"] [data-difference]').first().waitFor({ timeout: THINK_MS_MAX });
}

/** @param shoot takes the picture of a name; of the whole page where it is told so */
export async function takeStops(page, stop, shoot) {
  await page.goto(`/stop/${stop}`);
  await page.locator('[data-work]').first().waitFor();
  await page.locator('section[aria-labelledby="plan-title"] svg').waitFor();
  await shoot('stop', true);
  await page.getByRole('button', { name: 'Close the stop' }).click();
  await page.locator('form .all').click();
  await page.locator('.deeds').scrollIntoViewIfNeeded();
  await shoot('close-stop');
  await page.locator('form button', { hasText: 'Cancel' }).click();
  await page.goto('/horizon?as=drawing');
  await page.locator('[data-plot] svg').first().waitFor();
  await shoot('horizon-before-proposal');
  await page.goto('/horizon?as=drawing&propose=yes');
  await propose(page);
  await page.locator('.proposed[d^="M"]').first().waitFor({ state: 'attached' });
  await page.locator('.differences').evaluate((list) => list.scrollIntoView());
  await shoot('horizon-after-proposal');
}

/** The pictures of docs/guide/monday-morning.md. */
export async function takeMonday(server, browser, shoot) {
  const page = await openPage(browser, server.url, DESK, { colorScheme: 'light' });
  await page.goto('/');
  await choosePerson(page);
  await walkMonday(page, server, (step) => shoot(page, `monday-${step}`));
  await page.locator('[data-agreed]').getByRole('button', { name: 'Take it back' }).click();
  await page.getByText('Taken back').waitFor();
  await page.context().close();
}
