// Where the buttons of a plan's points stand, in pixels: on their spots where there is room for a finger between them,
// else pushed apart just so far. The same points on the same plan always end at the same places.

export interface Spot {
  number: number;
  x: number;
  y: number;
}

/** A button's centre, and the spot that it stands for. */
export interface Place extends Spot {
  spot: Spot;
}

export interface ButtonSize {
  /** Both ways. */
  size: number;
  /** At least so much between two buttons, in one direction. */
  gap: number;
}

export interface Ground extends ButtonSize {
  width: number;
  height: number;
}

/** Along the direction in which less is missing, or only from back to front: out of a row that is full. */
type Way = 'shorter' | 'back to front';

const ROUNDS_MAX = 1_000;
const ROUNDS_SHORTER = 200;
/** Pushed a little farther than needed, so that the last hundredths do not take a hundred rounds. */
const SLACK = 0.05;

function inside(place: Place, ground: Ground): void {
  const half = ground.size / 2;
  place.x = Math.min(Math.max(place.x, half), ground.width - half);
  place.y = Math.min(Math.max(place.y, half), ground.height - half);
}

/** Pushes two places apart; says whether anything was missing. */
function pushApart(a: Place, b: Place, ground: Ground, way: Way): boolean {
  const pitch = ground.size + ground.gap;
  const missingX = pitch - Math.abs(b.x - a.x);
  const missingY = pitch - Math.abs(b.y - a.y);
  if (missingX <= 1e-6 || missingY <= 1e-6) return false;
  if (way === 'shorter' && missingX < missingY) {
    const push = ((missingX + SLACK) / 2) * (b.x < a.x ? -1 : 1);
    a.x -= push;
    b.x += push;
  } else {
    const push = ((missingY + SLACK) / 2) * (b.y < a.y ? -1 : 1);
    a.y -= push;
    b.y += push;
  }
  inside(a, ground);
  inside(b, ground);
  return true;
}

function pushAll(places: Place[], ground: Ground, way: Way): boolean {
  let isPushed = false;
  places.forEach((a, index) => {
    for (const b of places.slice(index + 1)) isPushed = pushApart(a, b, ground, way) || isPushed;
  });
  return isPushed;
}

/** The places in the order of the numbers, or null where the plan is too small for them all. */
export function spread(spots: readonly Spot[], ground: Ground): Place[] | null {
  const places = spots.toSorted((a, b) => a.number - b.number).map((spot) => ({ ...spot, spot }));
  for (const place of places) inside(place, ground);
  for (let round = 0; round < ROUNDS_MAX; round += 1)
    if (!pushAll(places, ground, round % ROUNDS_SHORTER === ROUNDS_SHORTER - 1 ? 'back to front' : 'shorter'))
      return places;
  return null;
}

/** The first of the button sizes for which there is room; where there is room for none, the last one, overlapping. */
export function spreadFitting(
  spots: readonly Spot[],
  { width, height }: { width: number; height: number },
  sizes: readonly [ButtonSize, ...ButtonSize[]],
): { places: Place[]; size: number } {
  for (const { size, gap } of sizes) {
    const places = spread(spots, { width, height, size, gap });
    if (places !== null) return { places, size };
  }
  const places = spots.map((spot) => ({ ...spot, spot }));
  return { places, size: sizes.at(-1)?.size ?? 0 };
}
