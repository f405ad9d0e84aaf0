// The invented shop's findings and photos.
import { createHash } from 'node:crypto';
import { Refusal } from './refusal.mjs';

const SEVERITIES = ['stop the machine', 'before next shift', 'at the next stop', 'watch'];
const rank = (finding) => SEVERITIES.indexOf(finding.severity);
const SIGN = ['id', 'by', 'at', 'sent_at'];

const withoutSign = (edit) => Object.fromEntries(Object.entries(edit).filter(([name]) => !SIGN.includes(name)));

export class Findings {
  constructor(shop) {
    this.shop = shop;
    this.all = new Map();
    this.photos = new Map();
  }

  open(machine) {
    return this.sorted((finding) => finding.machine === machine && finding.state === 'open');
  }

  sorted(fits) {
    const due = (finding) => finding.due_on ?? '9999';
    return [...this.all.values()]
      .filter(fits)
      .sort((a, b) => rank(a) - rank(b) || due(a).localeCompare(due(b)) || a.id.localeCompare(b.id));
  }

  list(query) {
    const state = query.get('state') ?? 'open';
    const machine = query.get('machine');
    if (machine) this.shop.find(machine);
    return {
      findings: this.sorted((one) => (state === 'all' || one.state === state) && (!machine || one.machine === machine)),
    };
  }

  find(id) {
    const finding = this.all.get(id);
    if (!finding) throw new Refusal(404, 'not-found', 'There is no such finding.');
    return finding;
  }

  history(id) {
    const finding = this.find(id);
    return { finding, entries: this.shop.logbook.entries.filter((entry) => entry.finding === id) };
  }

  note(finding, kind, edit, says) {
    const photos = edit.photos?.length > 0 ? { photos: edit.photos } : {};
    this.shop.note(this.shop.find(finding.machine), kind, edit, says, { finding: finding.id, ...photos });
    finding.photos = [...finding.photos, ...(edit.photos ?? [])];
    return finding;
  }

  make(key, edit) {
    return this.shop.once(edit.id, () => {
      const machine = this.shop.find(key);
      const at = edit.at ?? new Date().toISOString();
      const finding = {
        ...{ owner: null, due_on: null, task: null },
        ...withoutSign(edit),
        ...{ id: edit.id, machine: machine.key, state: 'open', by: edit.by, at, photos: [] },
      };
      this.all.set(finding.id, finding);
      return this.note(finding, 'finding made', edit, `${edit.by} found: ${edit.what} (${edit.severity}).`);
    });
  }

  change(id, edit) {
    return this.shop.once(edit.id, () => {
      const finding = this.find(id);
      const { severity, owner, due_on, task } = edit;
      const emptied = Object.entries({ owner, due_on, task }).filter(([, value]) => value !== undefined);
      for (const [name, value] of emptied) finding[name] = value === '' ? null : value;
      if (severity) finding.severity = severity;
      const what = Object.entries({ severity, owner, due_on, task, note: edit.note })
        .filter(([, value]) => value !== undefined)
        .map(([name, value]) => `${name} ${value === '' ? 'none' : value}`);
      return this.note(finding, 'finding changed', edit, `${edit.by} changed the finding: ${what.join(', ')}.`);
    });
  }

  settle(id, edit) {
    return this.shop.once(edit.id, () => {
      const finding = this.find(id);
      if (finding.state === 'settled') throw new Refusal(409, 'conflict', 'This finding is settled already.');
      const settled_at = edit.at ?? new Date().toISOString();
      Object.assign(finding, { state: 'settled', settled_by: edit.by, settled_at, done: edit.done });
      return this.note(finding, 'finding settled', edit, `${edit.by} settled it: ${edit.done}`);
    });
  }

  reopen(id, edit) {
    return this.shop.once(edit.id, () => {
      const finding = this.find(id);
      if (finding.state === 'open') throw new Refusal(409, 'conflict', 'This finding is open.');
      Object.assign(finding, { state: 'open', settled_by: undefined, settled_at: undefined, done: undefined });
      return this.note(finding, 'finding reopened', edit, `${edit.by} opened it again: ${edit.why}`);
    });
  }

  keepPhoto(id, { type, body }) {
    const sha256 = createHash('sha256').update(body).digest('hex');
    const held = this.photos.get(id);
    if (held && held.sha256 !== sha256) throw new Refusal(409, 'conflict', 'Another photo has this id.');
    this.photos.set(id, { type, body, sha256 });
    return { id, sha256, bytes: body.length };
  }

  photo(id) {
    const photo = this.photos.get(id);
    if (!photo) throw new Refusal(404, 'not-found', 'There is no such photo.');
    return photo;
  }
}
