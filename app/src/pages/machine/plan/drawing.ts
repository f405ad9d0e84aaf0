// The plan of each kind of machine, seen from above, drawn from simple shapes that library/drawings.json has; the job
// card's PDF reads the same file. Units: hundredths of the plan's width and depth, x from the left, y from the back; the
// front, where the operator stands, is below. Each shape says which assembly it shows, so that a chosen point's assembly
// can be brought out, and so that a test can hold the drawing against the points of the starting sets. A plan shows
// where things are; it is not to scale.

import drawings from '../../../../../library/drawings.json';

export type Shape = Readonly<
  { of: string; look: Look } & (
    | { form: 'box'; x: number; y: number; width: number; height: number; round: number }
    | { form: 'disc'; x: number; y: number; radius: number }
    | { form: 'line'; path: string }
  )
>;

/** shell: the enclosure; part: a thing; fine: a thing's detail; hidden: below or behind. */
export type Look = 'shell' | 'part' | 'fine' | 'hidden';

/** A shape as the file has it: one of box (x, y, width, height), disc (x, y, radius) and line (an SVG path of M, L, H
    and V). */
interface Written {
  of: string;
  look: string;
  box?: number[];
  round?: number;
  disc?: number[];
  line?: string;
}

function read({ of, look, box, round = 0, disc, line = '' }: Written): Shape {
  const as = { of, look: look as Look };
  if (box) {
    const [x = 0, y = 0, width = 0, height = 0] = box;
    return { ...as, form: 'box', x, y, width, height, round };
  }
  if (disc) {
    const [x = 0, y = 0, radius = 0] = disc;
    return { ...as, form: 'disc', x, y, radius };
  }
  return { ...as, form: 'line', path: line };
}

const WRITTEN: Readonly<Record<string, Written[]>> = drawings;

/** A kind without a drawing of its own has a bare enclosure for its points. */
const BARE: readonly Shape[] = [read({ of: '', look: 'shell', box: [10, 10, 80, 84], round: 2 })];

export function drawingOf(kind: string): readonly Shape[] {
  return WRITTEN[kind]?.map(read) ?? BARE;
}
