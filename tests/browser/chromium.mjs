// Debian's Chromium, with nothing that calls home, and the two places of use: a desk and a phone.
import { chromium } from 'playwright-core';

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

/** A page that notes whatever it must not do: errors, refusals by the content policy, requests to other hosts. */
export async function openPage(browser, url, place = DESK, more = {}) {
  const context = await browser.newContext({
    baseURL: url,
    timezoneId: 'Asia/Tokyo',
    locale: 'en-GB',
    ...place,
    ...more,
  });
  const page = await context.newPage();
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

export async function choosePerson(page, name) {
  await page.locator('#person-top option').nth(1).waitFor({ state: 'attached' });
  const chosen = name ?? (await page.locator('#person-top option').nth(1).getAttribute('value'));
  await page.locator('#person-top').selectOption(chosen);
  return chosen;
}
