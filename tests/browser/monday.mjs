import { choosePerson } from './people.mjs';
// The demo's Monday morning, as docs/guide/monday-morning.md tells it: from Today to an agreed stop on Saturday. The test
// counts the clicks, the pictures are taken at its steps.

/** Choosing who one is: the list is opened, the name is pressed. */
const CHOOSING = 2;
const ROUND = /^1 (start-up|shift|day|week)$/;

/** Counts every click that a page gets, also over page loads. */
async function countClicks(page) {
  await page.addInitScript(() => {
    document.addEventListener(
      'click',
      () => sessionStorage.setItem('clicks', String(Number(sessionStorage.getItem('clicks') ?? 0) + 1)),
      { capture: true },
    );
  });
  return async () => CHOOSING + (await page.evaluate(() => Number(sessionStorage.getItem('clicks') ?? 0)));
}

/** The most costly task of Today that wants its machine standing and that nobody has planned. */
async function mostCostly(server) {
  const { items } = await server.get('/api/today');
  const { stops } = await server.get('/api/horizon');
  const isPlanned = (machine, key) =>
    stops.some((stop) => stop.machine === machine && stop.tasks.some(({ task }) => task === key));
  const isCheck = ({ triggers }) => triggers.some(({ calendar }) => ROUND.test(calendar ?? ''));
  const fits = ({ kind, machine, task }) =>
    kind === 'task' && task.energy !== 'in production' && !isCheck(task) && !isPlanned(machine, task.key);
  return items.find(fits);
}

/**
 * @param look what happens at each step, by its name
 * @returns the task that it began with, the stop's id and the clicks that it took
 */
export async function walkMonday(page, server, look = async () => undefined) {
  const clicks = await countClicks(page);
  const { machine, task } = await mostCostly(server);
  const { name } = await server.get(`/api/machines/${machine}`);
  await page.goto('/today');
  const person = await choosePerson(page);
  await page.locator('[data-item="task"]').first().waitFor();
  await look('today');
  const line = page.locator('[data-item="task"]', { hasText: `${task.title}, ${name}` }).first();
  if (!(await line.isVisible()))
    await page
      .getByRole('button', { name: /^Show \d+ more/ })
      .first()
      .click();
  await line.getByRole('link', { name: /^Open the task/ }).click();
  const plan = page.locator(`[data-task="${task.key}"]`).getByRole('link', { name: 'Plan a stop for it' });
  await plan.waitFor();
  await look('task');
  await plan.click();
  const panel = page.locator('[data-plan]');
  await panel.getByRole('button', { name: 'Next Saturday' }).click();
  const along = panel.getByRole('button', { name: /due by then$/ });
  if (await along.isVisible()) await along.click();
  await panel.locator('[data-sum][aria-busy="false"]').waitFor();
  await look('plan');
  await panel.getByRole('button', { name: 'Agree to this stop' }).click();
  const agreed = page.locator('[data-agreed]');
  await agreed.waitFor();
  await look('agreed');
  return { person, task: task.key, stop: await agreed.getAttribute('data-agreed'), clicks: await clicks() };
}
