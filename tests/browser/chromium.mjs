// Debian's Chromium, with nothing that calls home, and the two places of use: a desk and a phone.
import { chromium } from 'playwright-core';
import { peopleAt } from './people.mjs';

export const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const DESK = { viewport: { width: 1440, height: 900 } };
export const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };

/** A browser with a fresh profile of its own. */
export function openChromium(flags = []) {
  return chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: [...FLAGS, ...flags] });
}

/** A page that notes whatever it must not do: errors, refusals by the content policy, requests to other hosts. The first of
 * the shop's people has signed in with it, unless `as` is null or names another. */
export async function openPage(browser, url, place = DESK, { as, ...more } = {}) {
  const context = await browser.newContext({
    baseURL: url,
    timezoneId: 'Asia/Tokyo',
    locale: 'en-GB',
    ...place,
    ...more,
  });
  const people = as === null ? undefined : peopleAt(url);
  if (people) await people.signIn(context, url, as);
  const page = await context.newPage();
  page.signedInAt = url;
  page.setDefaultTimeout(20_000);
  page.wrongs = [];
  page.on('pageerror', (error) => page.wrongs.push(`error: ${error.message}`));
  page.on('console', (message) => {
    if (/Content.Security|Refused to/i.test(message.text())) page.wrongs.push(`policy: ${message.text()}`);
  });
  page.on('request', (request) => {
    if (!request.url().startsWith(url) && !/^(data|blob):/.test(request.url()))
      page.wrongs.push(`request to elsewhere: ${request.url()}`);
  });
  return page;
}
