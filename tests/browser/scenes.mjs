// What several tests need to find in whatever shop the server shows.
import { randomUUID } from 'node:crypto';
import { until } from './suite.mjs';

/** An id as the server wants it from other clients; any UUID of version 7's form will do for a test. */
export function newId() {
  const random = randomUUID();
  return `${Date.now()
    .toString(16)
    .padStart(12, '0')
    .replace(/^(.{8})(.{4})$/, '$1-$2')}-7${random.slice(15)}`;
}

const picked = new Set();

/** The first machine and task that fit and that no test has picked before. */
export async function pickTask(server, fits) {
  const found = await findTask(server, (task) => !picked.has(`${task.machine}/${task.key}`) && fits(task));
  picked.add(`${found.task.machine}/${found.task.key}`);
  return found;
}

/** The first machine and task that fit. */
export async function findTask(server, fits) {
  const { machines } = await server.get('/api/floor');
  for (const { key } of machines) {
    const machine = await server.get(`/api/machines/${key}`);
    const task = machine.tasks.find(fits);
    if (task) return { machine, task };
  }
  throw new Error('no task of this shop fits');
}

export async function taskOf(server, machine, key) {
  return (await server.get(`/api/machines/${machine}`)).tasks.find((task) => task.key === key);
}

export const onCounter = (task) => task.triggers.some((trigger) => trigger.counter && trigger.leads);

export async function openTask(page, task) {
  await page.goto(`/machine/${task.machine}?task=${encodeURIComponent(task.key)}`);
  await page.locator(`[data-task="${task.key}"] .done .main`).waitFor();
  return page.locator(`[data-task="${task.key}"]`);
}

export const loaded = (page) =>
  until('the Floor is there', async () => (await page.locator('[data-machine]').count()) > 0);
