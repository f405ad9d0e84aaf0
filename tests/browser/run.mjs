// usage: npm test [-- PART OF A TEST'S NAME]
// Several test files at a time, each in a process with a server and a browser of its own: a test waits more than it
// computes. Within a file the tests follow one another. HOURWRIGHT_BROWSERS says how many at a time.
import { fork } from 'node:child_process';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { isReal } from './server.mjs';

// The longest first, so that the last ones to end are short.
const FILES = [
  'access',
  'round_walk',
  'planning',
  'horizon',
  'stops',
  'stores',
  'round_offline',
  'connection',
  'logbook',
  'findings',
  'outbox',
  'keyboard',
  'done',
  'scan',
  'german',
  'plan',
  'change_plan',
  'lives',
  'labels',
  'month',
  'join',
  'people',
  'group',
  'sizes',
  'readings',
  'own_task',
  'hour_display',
  'floor',
  'load',
];

const only = process.argv[2] ?? '';
const atATime = Number(process.env.HOURWRIGHT_BROWSERS ?? cpus().length + 1);
const waiting = [...FILES];
const total = { passed: 0, failed: 0 };
const failures = [];

/** One process takes file after file until none is left; one that dies counts as a failed test of its file. */
function work() {
  const worker = fork(fileURLToPath(new URL('worker.mjs', import.meta.url)), [only]);
  let file;
  const next = () => {
    file = waiting.shift();
    worker.send({ file });
  };
  worker.on('message', ({ ready, lines, passed, failed }) => {
    if (!ready) {
      if (lines.length > 0) console.log(lines.join('\n'));
      failures.push(...lines.filter((line) => line.startsWith('FAILED')));
      total.passed += passed;
      total.failed += failed;
    }
    next();
  });
  return new Promise((resolve) => {
    worker.on('exit', (code) => {
      if (code !== 0) {
        total.failed += 1;
        console.log(`FAILED the process with ${file ?? 'no file yet'} ended with ${code}`);
      }
      resolve();
    });
  });
}

console.log(
  isReal ? 'Driving the real demo.' : 'build/hourwright is not there: driving the invented shop of app/fake.',
);
await Promise.all(Array.from({ length: Math.min(atATime, FILES.length) }, work));
// Once more at the end, where whoever sees only the end of a long log finds them.
if (failures.length > 0) console.log(['', 'What failed:', ...failures].join('\n'));
// A file that no process lived to take has failed too.
total.failed += waiting.length;
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed === 0 && total.passed > 0 ? 0 : 1;
