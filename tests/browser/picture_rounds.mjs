// The pictures of the rounds: all of them, one check, a reading beyond its action limit, the end, what is not sent.
import { fillIn, openRound, ready, sharedRound } from './walking.mjs';

/** `shoot` takes a picture by its name; the server is left as it is: nothing is sent. */
export async function takeRounds(page, server, shoot) {
  const found = await sharedRound(server);
  await page.goto('/rounds');
  await page.locator('[data-round]').first().waitFor();
  await shoot('rounds');
  await openRound(page, found);
  await page.context().setOffline(true);
  await fillIn(page, found.round.checks[0]);
  await ready(page).locator('.main.answer').click();
  await page.locator(`button[data-check="${found.round.checks[0].key}"]`).waitFor();
  await ready(page).waitFor();
  await page.mouse.move(0, 0);
  await shoot('round');
  const air = found.round.checks.find((check) => check.reading?.action?.min > 0);
  if ((await page.locator('.card').getAttribute('data-check')) !== air.key)
    await page.locator(`button[data-check="${air.key}"]`).click();
  await ready(page).waitFor();
  await page.locator('#reading').fill('4,8');
  await page.locator('.card').scrollIntoViewIfNeeded();
  await page.mouse.move(0, 0);
  await shoot('reading');
  await page.locator('.others[data-ready="true"]').click();
  await page.locator('.end').waitFor();
  await shoot('round-end');
  await page.goto('/unsent');
  await page.locator('li[data-entry]').first().waitFor();
  await shoot('unsent');
  await page.context().setOffline(false);
}
