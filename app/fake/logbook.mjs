// The invented shop's logbook: entries in order, filters, a proof without a chain behind it.
import { createHash } from 'node:crypto';
import { Refusal } from './refusal.mjs';

const COUNT = 100;

/** Does an entry fit the query of GET /api/logbook? */
function fits(entry, query) {
  const day = entry.happened_at.slice(0, 10);
  const words = `${entry.says} ${entry.note ?? ''}`.toLowerCase();
  return (
    ['machine', 'kind', 'by'].every((name) => !query.get(name) || entry[name] === query.get(name)) &&
    (!query.get('from') || day >= query.get('from')) &&
    (!query.get('to') || day <= query.get('to')) &&
    words.includes((query.get('text') ?? '').toLowerCase()) &&
    (query.get('stray') !== 'yes' || isWaiting(entry))
  );
}

const isWaiting = (entry) => entry.stray !== undefined && (entry.corrected_by ?? []).length === 0;
const quoted = (text) => `"${String(text).replaceAll('"', '""')}"`;

export class Logbook {
  constructor(shop) {
    this.shop = shop;
    this.entries = [];
  }

  add(entry) {
    const at = new Date().toISOString();
    const added = { ordinal: this.entries.length + 1, at, happened_at: at, ...entry };
    this.entries.push(added);
    return added;
  }

  fitting(query) {
    return this.entries.filter((entry) => fits(entry, query)).reverse();
  }

  page(query) {
    const before = Number(query.get('before') ?? Infinity);
    const count = Number(query.get('count') ?? COUNT);
    const older = this.fitting(query).filter((entry) => entry.ordinal < before);
    return {
      entries: older.slice(0, count),
      more: older.length > count,
      strays: this.entries.filter(isWaiting).length,
    };
  }

  csv(query) {
    const rows = this.fitting(query).map((one) => [
      one.ordinal,
      one.happened_at,
      one.machine,
      one.kind,
      one.by,
      one.says,
    ]);
    return [['ordinal', 'happened_at', 'machine', 'kind', 'by', 'says'], ...rows]
      .map((row) => row.map(quoted).join(','))
      .join('\r\n');
  }

  proof() {
    const head = createHash('sha256').update(JSON.stringify(this.entries)).digest('hex');
    return { entries: this.entries.length, head, breaks: [], photos_awaited: [] };
  }

  correct(id, edit) {
    return this.shop.once(edit.id, () => {
      const wrong = this.entries.find((entry) => entry.id === id);
      if (!wrong) throw new Refusal(404, 'not-found', 'There is no such entry.');
      wrong.corrected_by = [...(wrong.corrected_by ?? []), edit.id];
      return this.shop.note(this.shop.find(wrong.machine), 'correction', edit, edit.says, { corrects: id });
    });
  }
}
