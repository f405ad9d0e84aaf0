// Packs what lies side by side into lanes, so that nothing covers anything. Greedy: from the left, each into the first
// lane that is free; for intervals that uses the fewest lanes that can be.

export interface Packed<Item> {
  item: Item;
  /** From 0 at the top. */
  lane: number;
  /** Free px to the right of it in its lane, up to what stands next there. */
  room: number;
}

export interface Extent {
  left: number;
  right: number;
}

/** A piece of a lane that something else stands on. */
export interface Taken extends Extent {
  lane: number;
}

/** Whether a lane is free there, with the gap on both sides. */
export const isFree = (taken: readonly Taken[], lane: number, { left, right }: Extent, gap: number): boolean =>
  taken.every((one) => one.lane !== lane || one.right + gap <= left || right + gap <= one.left);

/** The first lane from which on so many are free there. */
export function lanesFrom(taken: readonly Taken[], count: number, extent: Extent, gap: number): number {
  const lanes = Array.from({ length: count }, (_, index) => index);
  for (let first = 0; ; first += 1) if (lanes.every((lane) => isFree(taken, first + lane, extent, gap))) return first;
}

/** Free px to the right, up to what stands next in the lane or to its end. */
const roomOf = (all: readonly Taken[], { lane, right }: Taken, end: number): number =>
  all.reduce(
    (room, one) => (one.lane === lane && one.left >= right ? Math.min(room, one.left - right) : room),
    Math.max(0, end - right),
  );

/**
 * @param gap between neighbours, px
 * @param end where a lane ends, px
 * @param taken what stands there already
 * @returns in order of their left edges
 */
export function packed<Item>(
  items: readonly Item[],
  extentOf: (item: Item) => Extent,
  gap: number,
  end: number,
  taken: readonly Taken[] = [],
): Packed<Item>[] {
  const all = [...taken];
  const placed = items
    .map((item) => ({ item, ...extentOf(item) }))
    .sort((a, b) => a.left - b.left || a.right - b.right)
    .map((place) => {
      const lane = lanesFrom(all, 1, place, gap);
      all.push({ ...place, lane });
      return { ...place, lane };
    });
  return placed.map((place) => ({ item: place.item, lane: place.lane, room: roomOf(all, place, end) }));
}

export const lanesIn = (places: ReadonlyArray<{ lane: number }>): number =>
  places.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
