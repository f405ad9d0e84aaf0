// A client-made id for whatever a person enters: UUID version 7 (RFC 9562): 48 bits of Unix milliseconds, then random
// bits, so that entries sort by the time at which they were made. Works without a secure context.

/** @param atMs Unix time in milliseconds */
export function newId(atMs: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  for (let index = 0; index < 6; index += 1) bytes[index] = Math.floor(atMs / 2 ** (8 * (5 - index))) % 256;
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
