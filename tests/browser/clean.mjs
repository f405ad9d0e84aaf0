// What axe-core finds on a page.
import assert from 'node:assert/strict';
import AxeBuilder from '@axe-core/playwright';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
const Axe = AxeBuilder.default ?? AxeBuilder;

/**
 * Whether the contrast of this page is looked at, which takes nine tenths of the time: not with forced colours, which are
 * the system's, and not dark on a desk, where the colours are those of a dark phone and the places those of a light desk.
 */
const isContrastSeen = (page) =>
  page.evaluate(() => {
    const is = (query) => window.matchMedia(query).matches;
    return !is('(forced-colors: active)') && !(is('(prefers-color-scheme: dark)') && is('(min-width: 60rem)'));
  });

/** No serious finding in this part of the page. */
export async function expectClean(page, where, part = 'html') {
  const rules = { 'color-contrast': { enabled: await isContrastSeen(page) } };
  // One document without frames, and of what is in order only that it is: twice as fast.
  const axe = new Axe({ page })
    .include(part)
    .options({ resultTypes: ['violations'], rules })
    .withTags(RULES);
  const { violations, passes } = await axe.setLegacyMode().analyze();
  assert.ok(passes.length > 3, 'the rules ran');
  const serious = violations.filter((one) => one.impact === 'serious' || one.impact === 'critical');
  const says = serious.map(
    (one) =>
      `${where}: ${one.id}: ${one.help}: ${one.nodes.map((node) => `${node.html.slice(0, 160)} ${node.any[0]?.message ?? ''}`).join(' | ')}`,
  );
  assert.deepEqual(says, []);
}
