// The plan of each kind of machine, seen from above, drawn from simple shapes. Units: hundredths of the plan's width and
// depth, x from the left, y from the back; the front, where the operator stands, is below. Each shape says which
// assembly it shows, so that a chosen point's assembly can be brought out, and so that a test can hold the drawing
// against the points of the starting sets. A plan shows where things are; it is not to scale.

export type Shape = Readonly<
  { of: string; look: Look } & (
    | { form: 'box'; x: number; y: number; width: number; height: number; round: number }
    | { form: 'disc'; x: number; y: number; radius: number }
    | { form: 'line'; path: string }
  )
>;

/** shell: the enclosure; part: a thing; fine: a thing's detail; hidden: below or behind. */
export type Look = 'shell' | 'part' | 'fine' | 'hidden';

type Corner = [x: number, y: number];

/** A box from its left back corner to its right front corner. */
function box(of: string, [x, y]: Corner, [right, front]: Corner, look: Look = 'part', round = 1): Shape {
  return { of, look, form: 'box', x, y, width: right - x, height: front - y, round };
}

function disc(of: string, [x, y]: Corner, radius: number, look: Look = 'part'): Shape {
  return { of, look, form: 'disc', x, y, radius };
}

const line = (of: string, path: string, look: Look = 'fine'): Shape => ({ of, look, form: 'line', path });

/** A row of strokes across a box: folded way covers, a band, slots. */
function ribs(of: string, [x, y]: Corner, [right, front]: Corner, step: number, along: 'x' | 'y'): Shape {
  const strokes: string[] = [];
  if (along === 'x') for (let at = x + step; at < right - 0.01; at += step) strokes.push(`M${at} ${y}V${front}`);
  else for (let at = y + step; at < front - 0.01; at += step) strokes.push(`M${x} ${at}H${right}`);
  return line(of, strokes.join(''));
}

/** A box with ribs. */
function ribbed(of: string, begin: Corner, end: Corner, step: number, along: 'x' | 'y'): Shape[] {
  return [box(of, begin, end), ribs(of, begin, end, step, along)];
}

/** A disc with pockets around it: a magazine, a turret. */
function wheel(of: string, [x, y]: Corner, radius: number, pockets: number): Shape[] {
  const around = Array.from({ length: pockets }, (_, index) => {
    const angle = (index / pockets) * 2 * Math.PI;
    const at = radius * 0.76;
    return disc(of, [x + at * Math.cos(angle), y + at * Math.sin(angle)], radius * 0.13, 'fine');
  });
  return [disc(of, [x, y], radius), ...around, disc(of, [x, y], radius * 0.3, 'fine')];
}

/** The front door with its window and the gap between its wings. */
function door(of: string, left: number, right: number, y: number): Shape[] {
  const middle = (left + right) / 2;
  return [box(of, [left, y - 2], [right, y + 2], 'part', 0.5), line(of, `M${middle} ${y - 2}V${y + 2}`)];
}

/** The operator panel on its arm. */
function panel([x, y]: Corner, from: Corner): Shape[] {
  return [
    line('control', `M${from[0]} ${from[1]}L${x} ${y}`, 'part'),
    box('control', [x - 6, y - 4], [x + 6, y + 4]),
    line('control', `M${x - 4} ${y - 1.5}H${x + 4}M${x - 4} ${y + 1.5}H${x + 1}`),
  ];
}

/** A cabinet with the seam between its doors. */
function cabinet([x, y]: Corner, [right, front]: Corner): Shape[] {
  const middle = (x + right) / 2;
  return [box('cabinet', [x, y], [right, front]), line('cabinet', `M${middle} ${y}V${front}`)];
}

/** A tank with its pump. */
function tank(of: string, begin: Corner, end: Corner, pump: Corner): Shape[] {
  return [box(of, begin, end), disc(of, pump, 2, 'fine')];
}

/** A unit with a fan: a chiller, a mist extractor. */
function fan(of: string, begin: Corner, end: Corner): Shape[] {
  const [x, y] = [(begin[0] + end[0]) / 2, (begin[1] + end[1]) / 2];
  return [
    box(of, begin, end),
    disc(of, [x, y], 3.2, 'fine'),
    line(of, `M${x - 3} ${y}H${x + 3}M${x} ${y - 3}V${y + 3}`),
  ];
}

/** The four feet of a bed. */
function bed(of: string, [x, y]: Corner, [right, front]: Corner): Shape[] {
  const feet: Corner[] = [
    [x + 2, y + 2],
    [right - 2, y + 2],
    [x + 2, front - 2],
    [right - 2, front - 2],
  ];
  return [box(of, [x, y], [right, front], 'hidden'), ...feet.map((at) => disc(of, at, 1.4, 'hidden'))];
}

const SHELL = (begin: Corner, end: Corner) => box('', begin, end, 'shell', 2);

const VERTICAL_MILL: Shape[] = [
  SHELL([16, 13], [84, 94]),
  ...bed('frame', [18, 50], [82, 88]),
  ...cabinet([40, 1], [76, 10]),
  ...fan('chiller', [18, 1], [30, 11]),
  ...ribbed('ways', [40, 16], [60, 37], 3, 'y'),
  ...ribbed('ways', [22, 57], [78, 77], 4, 'x'),
  box('ways', [31, 60], [69, 74]),
  line('ways', 'M31 63.5H69M31 67H69M31 70.5H69'),
  box('spindle', [42, 33], [58, 54], 'part', 3),
  disc('spindle', [50, 46], 5.5),
  disc('spindle', [50, 46], 2, 'fine'),
  ...wheel('tool-changer', [26, 40], 9, 12),
  line('tool-changer', 'M35 41L43 45', 'part'),
  ...tank('coolant', [4, 80], [24, 92], [20, 86]),
  ...ribbed('chips', [0, 66], [22, 74], 3, 'x'),
  box('lubrication', [6, 25], [14, 35]),
  box('air', [84, 11], [92, 21]),
  ...tank('hydraulics', [88, 36], [99, 48], [95, 40]),
  ...door('guards', 30, 70, 94),
  ...panel([90, 82], [84, 74]),
];

const HORIZONTAL_MILL: Shape[] = [
  SHELL([18, 12], [86, 84]),
  ...bed('frame', [20, 54], [84, 82]),
  ...cabinet([46, 1], [80, 9]),
  ...fan('chiller', [82, 2], [94, 13]),
  box('lubrication', [28, 1], [37, 9]),
  ...ribbed('ways', [36, 46], [64, 68], 3, 'y'),
  ...ribbed('ways', [40, 15], [60, 30], 3, 'x'),
  box('spindle', [42, 27], [58, 42], 'part', 2),
  box('spindle', [46, 38], [54, 46]),
  line('spindle', 'M48 46V38M52 46V38'),
  disc('table', [50, 58], 9),
  box('table', [44, 52], [56, 64], 'fine', 0.5),
  disc('pallet', [50, 78], 8),
  line('pallet', 'M46 70V86M54 70V86'),
  disc('pallet', [50, 92], 7),
  box('pallet', [45.5, 87.5], [54.5, 96.5], 'fine', 0.5),
  ...door('pallet', 36, 64, 98),
  line('pallet', 'M36 84V98M64 84V98', 'part'),
  ...wheel('tool-changer', [13, 36], 11, 16),
  line('tool-changer', 'M24 37L44 41', 'part'),
  ...tank('coolant', [4, 9], [20, 22], [8, 12]),
  ...ribbed('chips', [0, 60], [36, 67], 3, 'x'),
  ...tank('hydraulics', [87, 24], [98, 36], [94, 28]),
  box('air', [88, 45], [96, 55]),
  ...panel([70, 95], [68, 84]),
];

const FIVE_AXIS_MILL: Shape[] = [
  SHELL([16, 11], [86, 94]),
  ...cabinet([42, 1], [74, 9]),
  ...fan('chiller', [76, 2], [89, 13]),
  ...fan('mist', [28, 6], [40, 17]),
  box('ways', [21, 14], [26, 46], 'fine'),
  box('ways', [76, 14], [81, 46], 'fine'),
  ...ribbed('ways', [41, 22], [55, 36], 2.5, 'y'),
  box('spindle', [40, 33], [56, 50], 'part', 3),
  disc('spindle', [48, 44], 5),
  disc('spindle', [48, 44], 1.8, 'fine'),
  box('trunnion', [20, 53], [31, 68]),
  box('trunnion', [65, 53], [76, 68]),
  box('trunnion', [31, 55], [65, 70], 'part', 3),
  disc('trunnion', [48, 62], 9.5),
  disc('trunnion', [48, 62], 3, 'fine'),
  line('trunnion', 'M48 52.5V59M48 65V71.5M38.5 62H45M51 62H57.5'),
  box('measuring', [63, 72], [70, 77]),
  disc('measuring', [66.5, 74.5], 1.4, 'fine'),
  ...wheel('tool-changer', [9, 44], 9, 14),
  line('tool-changer', 'M18 44H40', 'part'),
  ...ribbed('chips', [0, 72], [44, 79], 3, 'x'),
  ...tank('coolant', [5, 9], [22, 22], [18, 18]),
  ...tank('hydraulics', [88, 22], [99, 34], [95, 26]),
  box('air', [89, 43], [98, 53]),
  ...door('guards', 26, 70, 94),
  ...panel([86, 89], [80, 84]),
];

const LATHE: Shape[] = [
  SHELL([12, 16], [88, 92]),
  ...bed('frame', [16, 50], [86, 84]),
  ...cabinet([48, 2], [76, 11]),
  ...tank('hydraulics', [29, 3], [44, 13], [33, 7]),
  box('lubrication', [77, 7], [87, 17]),
  box('spindle', [15, 28], [30, 64], 'part', 2),
  line('spindle', 'M19 31V46M26 31V46M19 31H26M19 46H26'),
  box('chuck', [9, 51], [16, 57]),
  box('chuck', [30, 46], [39, 64], 'part', 1.5),
  line('chuck', 'M35 46V51M35 59V64M39 53H43V57H39'),
  ...ribbed('ways', [43, 58], [70, 66], 3, 'x'),
  ...ribbed('ways', [49, 22], [61, 36], 2.5, 'y'),
  ...wheel('turret', [54, 44], 9, 10),
  box('tailstock', [72, 48], [85, 64]),
  line('tailstock', 'M72 53H66L63 56L66 59H72', 'part'),
  ...tank('coolant', [76, 78], [92, 90], [80, 84]),
  ...ribbed('chips', [70, 67], [100, 73], 3, 'x'),
  box('bar-feed', [0, 48], [8, 60]),
  line('bar-feed', 'M0 53H9M0 55H9'),
  ...door('guards', 34, 64, 93),
  ...panel([74, 94], [66, 90]),
];

const MILL_TURN: Shape[] = [
  SHELL([13, 14], [87, 94]),
  ...cabinet([42, 1], [68, 10]),
  ...fan('chiller', [70, 1], [82, 12]),
  ...tank('hydraulics', [24, 2], [37, 12], [28, 6]),
  box('lubrication', [13, 5], [22, 15]),
  box('main-spindle', [15, 45], [25, 63], 'part', 1.5),
  box('main-spindle', [25, 46], [33, 62], 'part', 1.5),
  line('main-spindle', 'M29 46V51M29 57V62M33 52H36V56H33'),
  box('counter-spindle', [74, 45], [84, 63], 'part', 1.5),
  box('counter-spindle', [66, 46], [74, 62], 'part', 1.5),
  line('counter-spindle', 'M70 46V51M70 57V62M66 52H63V56H66'),
  ...ribbed('ways', [38, 18], [58, 50], 3, 'y'),
  box('milling-head', [42, 28], [54, 46], 'part', 3),
  disc('milling-head', [48, 38], 5),
  disc('milling-head', [48, 38], 1.8, 'fine'),
  ...wheel('turret', [50, 70], 8.5, 10),
  ...wheel('tool-changer', [88, 25], 10, 16),
  line('tool-changer', 'M78 28L54 36', 'part'),
  ...ribbed('part-handling', [84, 56], [98, 64], 2.5, 'x'),
  box('part-handling', [0, 46], [9, 60]),
  line('part-handling', 'M0 52H13M0 55H13'),
  ...ribbed('chips', [58, 75], [100, 81], 3, 'x'),
  ...tank('coolant', [3, 69], [18, 84], [7, 80]),
  ...door('guards', 28, 68, 94),
  ...panel([80, 92], [74, 92]),
];

const SURFACE_GRINDER: Shape[] = [
  SHELL([15, 12], [88, 94]),
  ...bed('frame', [18, 54], [87, 86]),
  ...cabinet([62, 1], [87, 9]),
  ...fan('mist', [20, 2], [32, 14]),
  box('ways', [36, 14], [64, 30], 'part', 2),
  disc('ways', [58, 18], 2.2, 'fine'),
  ...ribbed('table', [18, 63], [82, 76], 4, 'x'),
  box('magnet', [32, 61], [66, 72]),
  ribs('magnet', [32, 61], [66, 72], 2, 'x'),
  box('wheel-spindle', [44, 20], [52, 44], 'part', 2),
  box('wheel', [40, 43], [56, 54], 'part', 2),
  box('wheel', [46, 44.5], [50, 52.5], 'fine', 0.5),
  box('dresser', [59, 55], [65, 61]),
  line('dresser', 'M59 58H56'),
  ...ribbed('coolant', [1, 49], [9, 63], 2.5, 'y'),
  ...tank('coolant', [3, 24], [14, 38], [7, 28]),
  line('coolant', 'M7 49V38', 'part'),
  ...tank('hydraulics', [89, 17], [99, 31], [95, 27]),
  box('lubrication', [90, 43], [98, 53]),
  ...door('guards', 26, 68, 94),
  ...panel([78, 92], [72, 92]),
];

const CYLINDRICAL_GRINDER: Shape[] = [
  SHELL([12, 12], [88, 94]),
  ...cabinet([52, 1], [80, 9]),
  ...fan('mist', [22, 1], [34, 12]),
  ...ribbed('ways', [40, 14], [60, 36], 3, 'y'),
  box('wheel-head', [40, 16], [58, 38], 'part', 2),
  line('wheel-head', 'M52 18V30M56 18V30M52 18H56M52 30H56'),
  box('wheel', [38, 37], [56, 49], 'part', 2),
  box('wheel', [44, 39], [49, 48], 'fine', 0.5),
  box('internal-spindle', [29, 32], [38, 43], 'part', 2),
  line('internal-spindle', 'M33 43V50', 'part'),
  ...ribbed('ways', [15, 70], [85, 81], 4, 'x'),
  box('work-head', [15, 57], [28, 70], 'part', 2),
  line('work-head', 'M28 61H32L35 63.5L32 66H28', 'part'),
  line('', 'M35 63.5H66', 'fine'),
  box('tailstock', [69, 57], [82, 70], 'part', 2),
  line('tailstock', 'M69 61H67L65 63.5L67 66H69', 'part'),
  box('gauging', [41, 53], [47, 61]),
  line('gauging', 'M42 61V63.5M46 61V63.5'),
  box('dresser', [55, 59], [61, 66]),
  line('dresser', 'M58 59V56'),
  ...ribbed('coolant', [1, 23], [9, 38], 2.5, 'y'),
  ...tank('coolant', [3, 5], [17, 18], [13, 9]),
  line('coolant', 'M5 23V18', 'part'),
  ...tank('hydraulics', [88, 15], [99, 29], [95, 19]),
  box('lubrication', [89, 41], [98, 51]),
  ...door('guards', 28, 68, 94),
  ...panel([82, 92], [76, 92]),
];

const DRAWINGS: Readonly<Record<string, readonly Shape[]>> = {
  'vertical-mill': VERTICAL_MILL,
  'horizontal-mill': HORIZONTAL_MILL,
  'five-axis-mill': FIVE_AXIS_MILL,
  lathe: LATHE,
  'mill-turn': MILL_TURN,
  'surface-grinder': SURFACE_GRINDER,
  'cylindrical-grinder': CYLINDRICAL_GRINDER,
};

/** A kind without a drawing of its own has a bare enclosure for its points. */
const BARE: readonly Shape[] = [SHELL([10, 10], [90, 94])];

export function drawingOf(kind: string): readonly Shape[] {
  return DRAWINGS[kind] ?? BARE;
}
