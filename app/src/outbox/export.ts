// Rows of the outbox as a JSON file that a person can hand on: everything that was entered, photos included (base64), so
// that dismissing what the server refused loses nothing.

import type { Row } from './entered';

type BytesOf = (photo: string) => Promise<ArrayBuffer | undefined>;

const CHUNK = 0x8000;

function base64Of(bytes: ArrayBuffer): string {
  const all = new Uint8Array(bytes);
  let text = '';
  for (let at = 0; at < all.length; at += CHUNK) text += String.fromCharCode(...all.subarray(at, at + CHUNK));
  return btoa(text);
}

async function exportedRow(row: Row, bytesOf: BytesOf): Promise<object> {
  const { operation, path, body, about, state, refusal } = row;
  const bytes = operation === 'keepPhoto' ? await bytesOf(row.id) : undefined;
  return { operation, path, body, about, state, refusal, ...(bytes ? { jpeg_base64: base64Of(bytes) } : {}) };
}

/** The text of the file. */
export async function exported(rows: readonly Row[], bytesOf: BytesOf): Promise<string> {
  const entries = [];
  for (const row of rows) entries.push(await exportedRow(row, bytesOf));
  return JSON.stringify(
    { hourwright: 'entries that the server has not taken', exported_at: new Date(), entries },
    null,
    2,
  );
}

/** Gives the person the file, as a download. */
export function handOut(text: string, name: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
