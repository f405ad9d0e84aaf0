// The invented shop's walking order, nearest point next, and moving points; roughly, the server does it well.
import { Refusal } from './refusal.mjs';

export function walkOf(points) {
  const left = [...points];
  const walk = [];
  let here = { x: 0.5, y: 1 };
  const away = (point) => Math.hypot(point.x - here.x, point.y - here.y);
  while (left.length > 0) {
    left.sort((a, b) => away(a) - away(b));
    here = left.shift();
    walk.push(here.number);
  }
  return walk;
}

export function moveOf(shop, machine, edit) {
  for (const place of edit.points) {
    const point = machine.points.find((one) => one.number === place.number);
    if (!point) throw new Refusal(400, 'bad-input', `points: ${machine.name} has no point ${place.number}.`);
    Object.assign(point, { x: place.x, y: place.y });
  }
  const numbers = edit.points.map((place) => place.number).join(', ');
  return shop.note(machine, 'points moved', edit, `${edit.by} moved point ${numbers} on the plan.`);
}
