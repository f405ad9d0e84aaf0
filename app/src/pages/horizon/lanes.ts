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

/**
 * @param gap between neighbours, px
 * @param end where a lane ends, px
 * @returns in order of their left edges
 */
export function packed<Item>(
  items: readonly Item[],
  extentOf: (item: Item) => Extent,
  gap: number,
  end: number,
): Packed<Item>[] {
  const lastOf: Array<{ packed: Packed<Item>; right: number }> = [];
  const places = items
    .map((item) => ({ item, ...extentOf(item) }))
    .sort((a, b) => a.left - b.left || a.right - b.right);
  return places.map(({ item, left, right }) => {
    const free = lastOf.findIndex((last) => last.right + gap <= left);
    const lane = free === -1 ? lastOf.length : free;
    const before = lastOf[lane];
    if (before !== undefined) before.packed.room = left - before.right;
    const made = { item, lane, room: Math.max(0, end - right) };
    lastOf[lane] = { packed: made, right };
    return made;
  });
}

export const lanesIn = (places: ReadonlyArray<{ lane: number }>): number =>
  places.reduce((most, { lane }) => Math.max(most, lane + 1), 0);
