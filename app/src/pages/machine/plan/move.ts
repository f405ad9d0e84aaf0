// Moving points on a plan, and changing the order in which they are walked past. A place is a share of the plan's width and
// depth, 0 to 1, to a thousandth.

import type { Point, PointPlace } from '../../../wire/contract';

const THOUSAND = 1000;
const within = (share: number) => Math.round(Math.min(Math.max(share, 0), 1) * THOUSAND) / THOUSAND;

export const placeOf = ({ number, x, y }: Point): PointPlace => ({ number, x, y });

/** The places with one point put elsewhere; never beyond the plan. */
export function put(places: readonly PointPlace[], { number, x, y }: PointPlace): PointPlace[] {
  return places.map((place) => (place.number === number ? { number, x: within(x), y: within(y) } : place));
}

/** The same by a step. */
export function step(places: readonly PointPlace[], number: number, by: { x: number; y: number }): PointPlace[] {
  const place = places.find((one) => one.number === number);
  return place ? put(places, { number, x: place.x + by.x, y: place.y + by.y }) : [...places];
}

/** Those that stand elsewhere than before. */
export function movedFrom(before: readonly PointPlace[], now: readonly PointPlace[]): PointPlace[] {
  return now.filter((place) => {
    const old = before.find((one) => one.number === place.number);
    return old === undefined || within(old.x) !== place.x || within(old.y) !== place.y;
  });
}

/** The point nearest to a spot. */
export function nearestTo(places: readonly PointPlace[], spot: { x: number; y: number }): number | null {
  const away = (place: PointPlace) => Math.hypot(place.x - spot.x, place.y - spot.y);
  return [...places].sort((a, b) => away(a) - away(b))[0]?.number ?? null;
}

/** The order with one point a place earlier (-1) or later (1); as it was where there is none. */
export function shifted(order: readonly number[], number: number, by: -1 | 1): number[] {
  const from = order.indexOf(number);
  const other = order[from + by];
  if (from < 0 || other === undefined) return [...order];
  return order.map((one) => (one === number ? other : one === other ? number : one));
}
