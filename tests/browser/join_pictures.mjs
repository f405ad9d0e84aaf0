// The pictures of joining: a server of its own, the desk with a code, a phone with the steps, and what it can do then.
import { DESK, openChromium, openPage, PHONE } from './chromium.mjs';
import { JoinableServer } from './joinable.mjs';
import { choosePerson } from './people.mjs';
import { newId } from './scenes.mjs';

async function takeDesk(server, browser, look, shoot) {
  const page = await openPage(browser, server.ownUrl, DESK, { colorScheme: look });
  await page.goto('/join');
  await choosePerson(page);
  await page.locator('[data-device]').first().waitFor();
  await page.locator('.code .main').click();
  await page.locator('[data-code]').waitFor();
  await shoot(page, `join-desk-${look}`);
}

async function takePhone(server, phone, look, shoot) {
  const code = await server.newCode(newId());
  const plain = await openPage(phone, server.plainUrl, PHONE, { colorScheme: look });
  await plain.goto(`/join?code=${code}`);
  await plain.locator('input[value="android"]').check();
  await shoot(plain, `join-phone-${look}`, true);
  const page = await openPage(phone, server.tlsUrl, PHONE, { colorScheme: look, permissions: ['camera'] });
  await page.goto(`/join?code=${code}`);
  await page.locator('#device-title').fill('Phone at the lathes');
  await page.locator('form .main').click();
  await page.locator('[data-check="trusted"][data-verdict="yes"]').waitFor();
  await page.locator('[data-check="camera"] button').click();
  await page.locator('[data-check="camera"][data-verdict="yes"]').waitFor();
  await shoot(page, `joined-phone-${look}`, true);
}

export async function takeJoining(looks, shoot) {
  const server = await JoinableServer.open();
  const [phone, own] = [await server.openPhone(), await openChromium()];
  try {
    for (const look of looks) {
      await takePhone(server, phone, look, shoot);
      await takeDesk(server, own, look, shoot);
    }
  } finally {
    await phone.close();
    await own.close();
    await server.stop();
  }
}
