import { DESK, openChromium, openPage, PHONE, choosePerson } from './chromium.mjs';
import { Server } from './server.mjs';
const server = await Server.open(); const b = await openChromium();
for (const [n, place] of [['phone',PHONE],['desk',DESK]]) {
const page = await openPage(b, server.url, place, {colorScheme: n==='phone'?'light':'dark'});
await page.goto('/'); if (n==='phone') await page.locator('.menu').waitFor();
await choosePerson(page);
for (const path of process.argv.slice(2)) {
await page.goto(path); await page.waitForTimeout(2500);
const f=`/tmp/hw/s-${n}-${path.replace(/\W+/g,'_')}`;
await page.screenshot({path:f+'.png'});
if (n==='phone' && path==='/today') { await page.locator('.menu').click(); await page.screenshot({path:f+'-menu.png'}); }
} }
await b.close(); await server.stop();
