import { mkdtempSync, mkdirSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { filesOf, workerWithBuild } from './write_worker.mjs';

function built(script: string): string {
  const folder = mkdtempSync(join(tmpdir(), 'worker-'));
  mkdirSync(join(folder, 'assets'));
  const files = { 'index.html': '<html>', 'assets/a-1.js': script, 'assets/a-1.js.gz': 'z', 'worker.js': 'old' };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

const idIn = (text: string) => /"id":"([0-9a-f]{16})"/.exec(text)?.[1];

test('a build lists its files without the compressed forms and the worker', () => {
  expect(filesOf(built('1'))).toEqual(['assets/a-1.js', 'index.html']);
});
test('the worker begins with its build', () => {
  expect(workerWithBuild(built('1'), 'listen();')).toMatch(
    /^self\.BUILD = \{"id":"[0-9a-f]{16}","files":\["\/assets\/a-1\.js","\/index\.html"\]\};\nlisten\(\);$/,
  );
});
test('the same files are the same build; another byte or another worker is another', () => {
  const id = idIn(workerWithBuild(built('1'), 'w'));
  expect(idIn(workerWithBuild(built('1'), 'w'))).toBe(id);
  expect(idIn(workerWithBuild(built('2'), 'w'))).not.toBe(id);
  expect(idIn(workerWithBuild(built('1'), 'v'))).not.toBe(id);
});
