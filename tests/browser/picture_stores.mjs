// The scenes of the stores: the page of the day, one part, a count at the shelf, kits, and a sheet that is looked at.

const SHEET = [
  'Teilenummer;Bezeichnung;Einheit;Lagerort;Lieferant;Preis;Bestand',
  'N-801;Lint-free cloth;piece;C4-2;Schmierlager Osterwehr;0,80;120',
  'N-802;Cable tie 200 mm;piece;C4-3;Elektro Sandrup;0,05;viele',
  'N-803;Sealing cord 6 mm;m;C4-4;Maschinenteile Quellmoor;2,40;12,5',
].join('\n');

/** The number of a part that is to be ordered, or of the first one. */
async function partToOrder(server) {
  const { proposals } = await server.get('/api/stores/orders');
  const { parts } = await server.get('/api/stores');
  return proposals[0]?.lines[0]?.part ?? parts[0].part.number;
}

/** @param shoot takes the picture of a name */
export async function takeStores(page, server, shoot) {
  const number = await partToOrder(server);
  await page.goto('/stores');
  await page.locator('[data-part]').nth(3).waitFor();
  await shoot('stores');
  await page.goto(`/stores/${number}`);
  await page.locator('.graph svg').waitFor();
  await shoot('stored-part');
  await page.goto(`/stores/${number}?count=yes`);
  await page.locator('#moved').fill('4');
  await shoot('count');
  await page.goto('/kits');
  await page.locator('[data-kit-of]').nth(3).waitFor();
  await shoot('kits');
  await page.goto('/parts-sheet');
  const file = { name: 'parts.csv', mimeType: 'text/csv', buffer: Buffer.from(SHEET) };
  await page.locator('#sheet-file').setInputFiles(file);
  await page.locator('[data-count="rows"]').waitFor();
  await shoot('parts-sheet');
}
