// Takes every web address out of a package-lock.json (npm writes where a project asks for donations): the lock file
// names packages, versions and digests, and no host. usage: node clean_lock.mjs FOLDER...
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

for (const folder of process.argv.slice(2)) {
  const path = join(folder, 'package-lock.json');
  const lock = JSON.parse(readFileSync(path, 'utf8'));
  for (const entry of Object.values(lock.packages)) {
    delete entry.funding;
    delete entry.resolved;
  }
  writeFileSync(path, JSON.stringify(lock, null, 2) + '\n');
}
