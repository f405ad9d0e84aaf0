// What is typed on the server's computer, and how long numbers are shown.

import type { Join } from '../../wire/contract';

export const commandsFor = {
  certificate: 'hourwright tls init --data DIR --name shop.example --name 192.168.1.20',
  serve: 'hourwright serve --data DIR --listen 0.0.0.0:8470 --listen-tls 0.0.0.0:8471',
} as const;

const encryptedIn = (addresses: readonly string[]) => addresses.find((one) => one.startsWith('https://')) ?? '';

export const hasEncrypted = (join: Join) => encryptedIn(join.addresses) !== '';

/** The encrypted address of the same name as the page's own, else the first one; '' where there is none. */
export function encryptedAddress(join: Join, hostname: string): string {
  const same = join.addresses.filter((one) => new URL(one).hostname === hostname);
  return encryptedIn(same) || encryptedIn(join.addresses);
}

/** "0a1bff" -> "0A:1B:FF", as phones show fingerprints; a line may break behind each colon. */
export const spacedFingerprint = (hexadecimal: string) => hexadecimal.toUpperCase().replace(/..(?!$)/g, '$&:\u200b');

/** "K7RW3DXM" -> "K7RW 3DXM". */
export const spacedCode = (code: string) => code.replace(/^(.{4})(.+)$/, '$1\u00a0$2');

/** The names for which the certificate counts: "shop.example, 192.168.1.20". */
export const namesIn = (join: Join) => [...new Set(join.addresses.map((one) => new URL(one).hostname))].join(', ');

/** "14 min 20 s"-like parts of what is left, never below zero. */
export function leftOf(validUntil: string, nowMs: number): { minutes: number; seconds: number } {
  const seconds = Math.max(0, Math.floor((Date.parse(validUntil) - nowMs) / 1000));
  return { minutes: Math.floor(seconds / 60), seconds: seconds % 60 };
}
