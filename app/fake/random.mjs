// What the inventing rests on: seeded chance, and how much of the powered time each counter runs.

export const SHARES = { powered: 0.9, operating: 0.62, spindle: 0.55, axis: 0.4, cutting: 0.38 };

/** Mulberry32: small, seeded, good enough to invent a shop. */
export function randomFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
