// A film for Chromium's make-believe camera: a label, as our own PDF has it, lying askew on a grey table. Written as YUV4MPEG2,
// which is a line of text and then plain planes: brightness, and two of colour (128: none).
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const WIDTH = 640;
const HEIGHT = 480;
const FRAMES = 8;
const TABLE = 120;
const DPI = 160;
const TURN = 0.12;

/** The first page of a PDF as grey values. */
function greyOf(pdf, folder) {
  writeFileSync(join(folder, 'label.pdf'), pdf);
  execFileSync('pdftoppm', ['-r', DPI, '-gray', '-singlefile', join(folder, 'label.pdf'), join(folder, 'label')]);
  const bytes = readFileSync(join(folder, 'label.pgm'));
  const [head, width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString('latin1'));
  return { width: Number(width), height: Number(height), grey: bytes.subarray(head.length) };
}

/** The brightness of one picture: the label in the middle, turned a little, a little paler than white. */
function brightnessOf(label) {
  const plane = Buffer.alloc(WIDTH * HEIGHT, TABLE);
  const [cos, sin] = [Math.cos(TURN), Math.sin(TURN)];
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const [dx, dy] = [x - WIDTH / 2, y - HEIGHT / 2];
      const column = Math.round(dx * cos + dy * sin + label.width / 2);
      const row = Math.round(dy * cos - dx * sin + label.height / 2);
      if (column < 0 || row < 0 || column >= label.width || row >= label.height) continue;
      plane[y * WIDTH + x] = 30 + label.grey[row * label.width + column] * 0.75;
    }
  return plane;
}

/** Writes the film; gives its path. `pdf` without a label: an empty table. */
export function filmOf(pdf) {
  const folder = mkdtempSync(join(tmpdir(), 'film-'));
  const label = pdf ? greyOf(pdf, folder) : { width: 0, height: 0, grey: Buffer.alloc(0) };
  const frame = [Buffer.from('FRAME\n'), brightnessOf(label), Buffer.alloc((WIDTH * HEIGHT) / 2, 128)];
  const frames = Array.from({ length: FRAMES }, () => frame).flat();
  const path = join(folder, 'label.y4m');
  writeFileSync(path, Buffer.concat([Buffer.from(`YUV4MPEG2 W${WIDTH} H${HEIGHT} F10:1 Ip A1:1 C420\n`), ...frames]));
  return path;
}
