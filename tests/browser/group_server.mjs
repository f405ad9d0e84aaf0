// A group of two plants in one database, each at a name of its own below localhost, served by one server. The database is
// on a PostgreSQL of the tests' own (tests/postgres/private.sh).
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import './localhost_names.mjs';
import { People } from './people.mjs';
import { newId } from './scenes.mjs';
import { freePort, program, ROOT } from './server.mjs';
import { until } from './suite.mjs';

const STOP_MS_MAX = 20_000;

const shopOf = (name, machines) => `format = "hourwright-shop-1"
cell = [ { key = "c", title = "Cell" } ]
[plant]
name = "${name}"
zone = "Europe/Berlin"
[[person]]
name = "Ada Brandt"
skill = "technician"
${machines
  .map(({ key, title, kind }) => `[[machine]]\nkey = "${key}"\nname = "${title}"\nkind = "${kind}"\ncell = "c"\n`)
  .join('')}`;

const SHOPS = {
  north: shopOf('North works', [
    { key: 'm1', title: 'Lathe 1', kind: 'lathe' },
    { key: 'm2', title: 'Lathe 2', kind: 'lathe' },
  ]),
  south: shopOf('South works', [{ key: 'm1', title: 'Mill 1', kind: 'vertical-mill' }]),
  group: shopOf('All works', []),
};

function call(command, words) {
  const { status, stdout, stderr } = spawnSync(command, words, { cwd: ROOT, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${command} ${words.join(' ')}: ${stdout}${stderr}`);
}

/** Three lathes and three mills, whose batteries were replaced. */
const WORN = ['lathe', 'vertical-mill'].flatMap((kind) =>
  [1, 2, 3].map((number) => ({ key: `${kind}-${number}`, title: `${kind} ${number}`, kind })),
);
/** A plant takes what happened as many days ago at most, if it was founded before. */
const PAST_DAYS = 59;
const DAY_MS = 86_400_000;
/** The task that replaces them, and ages in days at which they failed, one after another on each machine: the lathes' last
 * longer in the south. */
const BATTERIES = {
  lathe: { task: 'batteries', north: [3, 5, 4, 6, 2, 5, 4, 3, 6, 5], south: [11, 8, 14, 9, 12] },
  'vertical-mill': { task: 'control-battery', north: [6, 9, 4, 8, 5, 7], south: [8, 5, 9, 6, 4, 7] },
};

export class GroupOfPlants {
  /** A group whose plants have replaced parts for two months. */
  static async withLives() {
    const group = new GroupOfPlants();
    await group.begin({ ...SHOPS, north: shopOf('North works', WORN), south: shopOf('South works', WORN) });
    const founded = `update task set began_ms = began_ms - ${(PAST_DAYS + 1) * DAY_MS}`;
    call('psql', ['--quiet', '--dbname', group.database, '--command', founded]);
    await group.serve();
    for (const plant of ['north', 'south']) await group.wear(plant);
    return group;
  }

  static async open() {
    const group = new GroupOfPlants();
    await group.begin(SHOPS);
    await group.serve();
    return group;
  }

  async begin(shops) {
    this.folder = mkdtempSync(join(tmpdir(), 'hw_group_'));
    call('bash', ['tests/postgres/private.sh', 'begin', join(this.folder, 'postgres')]);
    this.database = readFileSync(join(this.folder, 'postgres', 'address'), 'utf8').trim();
    for (const [plant, shop] of Object.entries(shops)) this.found(plant, shop);
  }

  /** On each machine of the plant one battery after another is found failed. */
  async wear(plant) {
    for (const { key, kind } of WORN) {
      let atMs = Date.now() - PAST_DAYS * DAY_MS;
      for (const days of [0, ...BATTERIES[kind][plant]]) {
        atMs += days * DAY_MS;
        const [at, sent_at] = [atMs, Date.now()].map((ms) => new Date(ms).toISOString());
        const body = { id: newId(), by: 'Ada Brandt', as_found: 'failed', at, sent_at };
        await this.post(plant, `/api/machines/${key}/tasks/${BATTERIES[kind].task}/done`, body);
      }
    }
  }

  dataOf(plant) {
    return join(this.folder, plant);
  }

  found(plant, shop) {
    const file = join(this.folder, `${plant}.toml`);
    writeFileSync(file, shop);
    const at = ['--data', this.dataOf(plant), '--database', this.database];
    call(program, ['found', ...at, '--plant', plant, '--shop', file]);
  }

  async serve() {
    const port = await freePort();
    this.url = `http://localhost:${port}`;
    const data = join(this.folder, 'server');
    mkdirSync(data);
    const words = ['serve', '--data', data, '--database', this.database, '--group', '--listen', `127.0.0.1:${port}`];
    this.child = spawn(program, words, { cwd: ROOT, stdio: ['ignore', 'pipe', 'inherit'] });
    await once(this.child.stdout, 'data');
    // A server that is slow for a while lets go of its plants, and takes them again.
    for (const plant of ['north', 'south'])
      await until(`${plant} is held`, async () => (await fetch(`${this.urlOf(plant)}/api/join`)).ok);
    this.people = new People(this.url, this.dataOf('group'));
    this.peopleOf = Object.fromEntries(
      ['north', 'south'].map((plant) => [plant, new People(this.urlOf(plant), this.dataOf(plant))]),
    );
  }

  urlOf(plant) {
    return this.url.replace('//', `//${plant}.`);
  }

  /** As a program with a token asks a plant. */
  async get(plant, path) {
    return this.ask(plant, path, { method: 'GET' });
  }

  async post(plant, path, body) {
    return this.ask(plant, path, { method: 'POST', body: JSON.stringify(body) });
  }

  async ask(plant, path, { method, body }) {
    const headers = { ...this.peopleOf[plant].headers(), 'content-type': 'application/json' };
    const response = await fetch(this.urlOf(plant) + path, { method, headers, body });
    if (!response.ok) throw new Error(`${method} ${path} of ${plant}: ${response.status} ${await response.text()}`);
    return response.json();
  }

  async stop() {
    const isOver = once(this.child, 'exit');
    const late = setTimeout(() => this.child.kill('SIGKILL'), STOP_MS_MAX);
    this.child.kill('SIGTERM');
    await isOver;
    clearTimeout(late);
    call('bash', ['tests/postgres/private.sh', 'end', join(this.folder, 'postgres')]);
    rmSync(this.folder, { recursive: true, force: true });
  }
}
