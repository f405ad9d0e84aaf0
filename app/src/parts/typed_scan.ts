// A scanner that types: it sends the code's characters as keys, far faster than fingers, and Enter at the end. Such a
// burst with an address as labels have it is taken from anywhere outside of text fields. Scanners are mostly set
// to the American keyboard; on a German one ":" and "/" then arrive as other characters, so the burst is read a second
// time by the keys' places.

import { pageInAddress } from './label_code';

/** Between two keys of a scanner; generous, since a wireless one on a busy device falters, and since nobody types an
 * address where no text is written. */
const BETWEEN_MS_MAX = 200;

/** Characters by the key's place on an American keyboard: without and with Shift. */
const PLACES: Readonly<Record<string, readonly [string, string]>> = {
  Slash: ['/', '?'],
  Semicolon: [';', ':'],
  Period: ['.', '>'],
  Comma: [',', '<'],
  Minus: ['-', '_'],
  Equal: ['=', '+'],
  BracketLeft: ['[', '{'],
  BracketRight: [']', '}'],
  Digit5: ['5', '%'],
};

/** One key as the browser tells of it. */
export interface TypedKey {
  /** What the keyboard's layout makes of it. */
  key: string;
  /** Its place on the keyboard. */
  code: string;
  shiftKey: boolean;
  /** When, in ms from any fixed moment. */
  timeStamp: number;
}

function byPlace({ key, code, shiftKey }: TypedKey): string {
  const placed = PLACES[code];
  if (placed) return placed[shiftKey ? 1 : 0];
  const letter = /^Key([A-Z])$/.exec(code)?.[1];
  if (letter !== undefined) return shiftKey ? letter : letter.toLowerCase();
  return /^(?:Digit|Numpad)(\d)$/.exec(code)?.[1] ?? key;
}

export class TypedScan {
  private keys: TypedKey[] = [];

  /** Would a key at that time belong to the burst that runs? */
  isWithin(timeStamp: number): boolean {
    const last = this.keys.at(-1);
    return last !== undefined && timeStamp - last.timeStamp <= BETWEEN_MS_MAX;
  }

  /** Takes a key; gives the address of the page when this one ends a burst that means one. */
  take(typed: TypedKey): string | null {
    if (!this.isWithin(typed.timeStamp)) this.keys = [];
    if (typed.key === 'Enter') return this.end();
    if (typed.key.length === 1) this.keys.push(typed);
    return null;
  }

  private end(): string | null {
    const keys = this.keys;
    this.keys = [];
    return pageInAddress(keys.map((one) => one.key).join('')) ?? pageInAddress(keys.map(byPlace).join(''));
  }
}

/** Does typing there write a text? Then the burst belongs into it. */
export function isTextField(element: EventTarget | null): boolean {
  if (!(element instanceof HTMLElement)) return false;
  return element.isContentEditable || element.matches('textarea, input:not([readonly])');
}
