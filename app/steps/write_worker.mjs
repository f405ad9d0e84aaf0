// Writes before the built service worker which files make up this build, and the build's id: the digest of all of them
// and of the worker itself. usage: node write_worker.mjs FOLDER
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const WORKER = 'worker.js';
const ID_DIGITS = 16;

/** Every file of the build but the worker and what is compressed beside its plain form, in the order of their names. */
export function filesOf(folder) {
  return readdirSync(folder, { recursive: true })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => statSync(join(folder, name)).isFile() && name !== WORKER && !/\.(br|gz)$/.test(name))
    .sort();
}

/** The worker with its build before it. */
export function workerWithBuild(folder, worker) {
  const files = filesOf(folder);
  const digest = createHash('sha256').update(worker);
  for (const name of files) digest.update(`\n${name}\n`).update(readFileSync(join(folder, name)));
  const build = { id: digest.digest('hex').slice(0, ID_DIGITS), files: files.map((name) => `/${name}`) };
  return `self.BUILD = ${JSON.stringify(build)};\n${worker}`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const path = join(process.argv[2], WORKER);
  const worker = readFileSync(path, 'utf8');
  if (worker.startsWith('self.BUILD')) throw new Error(`${path} has its build already`);
  if (/(^|[;}])\s*(import|export)\b/m.test(worker)) throw new Error(`${path} should be one plain script`);
  writeFileSync(path, workerWithBuild(process.argv[2], worker));
}
