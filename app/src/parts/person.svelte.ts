// Who works with this device. Until there is sign-in a person says so once, and the device remembers.

import { live } from '../wire/live.svelte';
import { recall, remember } from './remembered';

class Person {
  private chosen = $state(recall('person'));

  /** The name, or '' while nobody of this shop is chosen. */
  get name(): string {
    return live.shop?.people.some((person) => person.name === this.chosen) ? this.chosen : '';
  }

  choose(name: string): void {
    this.chosen = name;
    remember('person', name);
  }
}

export const person = new Person();
