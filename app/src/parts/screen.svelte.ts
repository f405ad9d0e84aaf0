// What the screen is like, followed as it changes: narrow, touched with a finger, printed.

import { flushSync } from 'svelte';
import { MediaQuery } from 'svelte/reactivity';

const narrow = new MediaQuery('(max-width: 47.5rem)');
const coarse = new MediaQuery('(pointer: coarse)');

class Printing {
  isOn = $state(window.matchMedia('print').matches);

  constructor() {
    window.addEventListener('beforeprint', () => this.turn(true));
    window.addEventListener('afterprint', () => this.turn(false));
    window.matchMedia('print').addEventListener('change', (event) => this.turn(event.matches));
  }

  /** At once: the browser lays the paper out as soon as its event is over. */
  private turn(isOn: boolean): void {
    flushSync(() => (this.isOn = isOn));
  }
}
const printing = new Printing();

export const screen = {
  get isNarrow() {
    return narrow.current;
  },
  get isCoarse() {
    return coarse.current;
  },
  get isPrinted() {
    return printing.isOn;
  },
};
