import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

test.each(['../package-lock.json', '../../tests/browser/package-lock.json'])(
  '%s names no host; `node steps/clean_lock.mjs FOLDER` makes it so',
  (path) => {
    const lock = readFileSync(new URL(path, import.meta.url), 'utf8');
    expect(lock).not.toMatch(/https?:|"resolved"/);
    expect(lock).toMatch(/"integrity": "sha512-/);
  },
);

test.each(['../package.json', '../../tests/browser/package.json'])('%s pins every version exactly', (path) => {
  const { dependencies = {}, devDependencies = {} } = JSON.parse(readFileSync(new URL(path, import.meta.url), 'utf8'));
  for (const version of Object.values({ ...dependencies, ...devDependencies }))
    expect(version).toMatch(/^\d+\.\d+\.\d+$/);
});
