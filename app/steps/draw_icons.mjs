// Draws the app's icons as PNG from public/icon.svg by Debian's Chromium; run by hand after the SVG changed, since the
// pictures are kept in the repository. usage: node steps/draw_icons.mjs
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../public/', import.meta.url));
const SIZES = { 'icon-192.png': 192, 'icon-512.png': 512, 'apple-touch-icon.png': 180 };

for (const [name, size] of Object.entries(SIZES)) {
  const flags = ['--headless', '--no-sandbox', '--disable-gpu', '--hide-scrollbars', `--window-size=${size},${size}`];
  execFileSync(process.env.CHROMIUM ?? '/usr/bin/chromium', [
    ...flags,
    `--screenshot=${folder}${name}`,
    `file://${folder}icon.svg`,
  ]);
}
