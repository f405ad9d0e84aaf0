// What the tests of stops and planning need: tasks that no stop holds, a stop agreed without the pages, places in a row.
import assert from 'node:assert/strict';
import { newId } from './scenes.mjs';

const DAY_MS = 86_400_000;
/** By server: the machines that a test has had. */
const picked = new WeakMap();

export const dayAfter = (date, days) => new Date(Date.parse(date) + days * DAY_MS).toISOString().slice(0, 10);

/** A machine that no test has picked before, without an agreed stop, with some tasks that want it standing. */
export async function freeMachine(server, fits = () => true, count = 3) {
  const { machines, stops, shifts, today } = await server.get('/api/horizon');
  if (!picked.has(server)) picked.set(server, new Set());
  for (const { machine, name, tasks } of machines) {
    if (picked.get(server).has(machine) || stops.some((stop) => stop.machine === machine)) continue;
    const standing = tasks.filter((task) => task.energy !== 'in production');
    const wanted = standing.filter(fits);
    if (wanted.length === 0 || standing.length < count) continue;
    picked.get(server).add(machine);
    const others = standing.filter((task) => task !== wanted[0]);
    return { machine, name, tasks: [wanted[0], ...others].slice(0, count), shifts, today };
  }
  throw new Error('no machine of this shop is free');
}

/** Agrees a stop so many days from today, by the first shift. */
export async function agreeStop(server, { machine, tasks, shifts, today }, days) {
  const { people } = await server.get('/api/shop');
  const slot = { on: dayAfter(today, days), shift: shifts[0]?.name ?? '' };
  const body = { id: newId(), by: people[0].name, ...slot, tasks: tasks.map(({ task }) => task) };
  const { status, value } = await server.send('POST', `/api/machines/${machine}/stops`, body);
  assert.equal(status, 200, JSON.stringify(value));
  return value;
}

export const stopOf = async (server, id) => (await server.get(`/api/stops/${id}`)).stop;
export const stopsOf = async (server, machine) => (await server.get(`/api/stops?machine=${machine}`)).stops;

/** The Horizon's drawing of one machine. */
export async function openRow(page, { machine, name }, weeks = 4) {
  await page.goto(`/horizon?as=drawing&weeks=${weeks}&find=${encodeURIComponent(name)}`);
  const row = page.locator(`[data-row="${machine}"]`);
  await row.locator('[data-plot] svg').waitFor();
  return row;
}

/** The middle of the first shape of a path in a row, on the screen. */
export async function middleOf(row, path) {
  await row.locator(path).first().waitFor({ state: 'attached' });
  return row
    .locator(path)
    .first()
    .evaluate((element) => {
      const [, x, y, w, h] = /M([\d.]+) ([\d.]+)(?:h([\d.]+)v([\d.]+)|a([\d.]+))/.exec(element.getAttribute('d'));
      const radius = Number(/a([\d.]+)/.exec(element.getAttribute('d'))?.[1] ?? 0);
      const box = element.ownerSVGElement.getBoundingClientRect();
      return { x: box.x + Number(x) + (w ? Number(w) / 2 : radius), y: box.y + Number(y) + (h ? Number(h) / 2 : 0) };
    });
}

/** How many px a day is wide in the drawing. */
export const dayWidth = (row, weeks = 4) =>
  row.locator('[data-plot]').evaluate((plot, days) => {
    const before = Number(/M([\d.]+)/.exec(plot.querySelector('.today').getAttribute('d'))[1]);
    return (plot.clientWidth - before) / days;
  }, weeks * 7);

/** Presses, moves in steps and holds. */
export async function dragBy(page, from, dx) {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (const share of [0.2, 0.5, 0.8, 1]) await page.mouse.move(from.x + dx * share, from.y);
}
