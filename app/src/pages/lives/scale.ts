// Round places for a chart's lines.

/** From 0 to `most`, in steps of 1, 2 or 5 times a power of ten, about so many. */
export function ticks(most: number, about: number): number[] {
  if (!(most > 0)) return [0];
  const rough = most / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((factor) => factor * power >= rough * 0.999) ?? 10) * power;
  return Array.from({ length: Math.floor((most / step) * (1 + 1e-9)) + 1 }, (_, index) => index * step);
}
