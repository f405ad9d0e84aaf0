// Measures the controls of a page as a gloved finger would.
import assert from 'node:assert/strict';
import { until } from './suite.mjs';

const TOUCH_PX = 56;
const GAP_PX = 12;

/** Every control that can be seen, with its place on the page. */
function controlsOf(page) {
  return page.locator('a, button, input, select, textarea, summary').evaluateAll((elements) =>
    elements
      .filter((element) => element.checkVisibility() && !element.matches('.skip'))
      .map((element) => {
        const { x, y, width, height } = element.getBoundingClientRect();
        return {
          x,
          y: y + scrollY,
          width,
          height,
          what: `${element.tagName} "${element.textContent.trim().slice(0, 30)}" ${element.id}`,
        };
      }),
  );
}

const apart = (a, b, side, length) => Math.max(b[side] - (a[side] + a[length]), a[side] - (b[side] + b[length]));

function tooNear(controls) {
  const found = [];
  controls.forEach((a, index) => {
    for (const b of controls.slice(index + 1)) {
      const gap = Math.max(apart(a, b, 'x', 'width'), apart(a, b, 'y', 'height'));
      if (gap < GAP_PX - 0.5) found.push(`${gap.toFixed(1)} px between ${a.what} and ${b.what}`);
    }
  });
  return found;
}

/** Every control is large and apart from the others, and the page is no wider than the screen. */
export async function measure(page) {
  const controls = await until('the page has its controls', async () => {
    const found = await controlsOf(page);
    return found.length > 3 && found;
  });
  const small = controls.filter((one) => one.height < TOUCH_PX - 0.5 || one.width < TOUCH_PX - 0.5);
  assert.deepEqual(
    small.map((one) => `${one.width.toFixed(0)} x ${one.height.toFixed(0)} ${one.what}`),
    [],
  );
  assert.deepEqual(tooNear(controls), []);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.ok(wide <= 0, `the page is ${wide} px too wide`);
}
