// usage: npm test [-- PART OF A TEST'S NAME]
import { isReal } from './server.mjs';
import { runAll } from './suite.mjs';

console.log(
  isReal ? 'Driving the real demo.' : 'build/hourwright is not there: driving the invented shop of app/fake.',
);
for (const file of [
  'floor',
  'done',
  'own_task',
  'hour_display',
  'connection',
  'keyboard',
  'sizes',
  'access',
  'load',
  'german',
  'plan',
  'logbook',
  'labels',
  'change_plan',
  'scan',
  'findings',
  'join',
  'horizon',
  'round_walk',
  'round_offline',
  'outbox',
])
  await import(`./${file}.test.mjs`);
process.exitCode = (await runAll(process.argv[2] ?? '')) === 0 ? 0 : 1;
