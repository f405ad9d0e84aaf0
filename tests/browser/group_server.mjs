// A group of two plants in one database, each at a name of its own below localhost, served by one server. The database is
// on a PostgreSQL of the tests' own (tests/postgres/private.sh).
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import './localhost_names.mjs';
import { People } from './people.mjs';
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

export class GroupOfPlants {
  static async open() {
    const group = new GroupOfPlants();
    group.folder = mkdtempSync(join(tmpdir(), 'hw_group_'));
    call('bash', ['tests/postgres/private.sh', 'begin', join(group.folder, 'postgres')]);
    group.database = readFileSync(join(group.folder, 'postgres', 'address'), 'utf8').trim();
    for (const [plant, shop] of Object.entries(SHOPS)) group.found(plant, shop);
    await group.serve();
    return group;
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
    const response = await fetch(this.urlOf(plant) + path, { headers: this.peopleOf[plant].headers() });
    if (!response.ok) throw new Error(`GET ${path} of ${plant}: ${response.status} ${await response.text()}`);
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
