// Light or dark: as the device says, unless a person chose.

import { recall, remember } from './remembered';

export const LOOKS = ['device', 'light', 'dark'] as const;
export type LookName = (typeof LOOKS)[number];

class Look {
  name = $state<LookName>(LOOKS.find((name) => name === recall('look')) ?? 'device');

  choose(name: LookName): void {
    this.name = name;
    remember('look', name);
    this.apply();
  }

  /** Sets what tokens.css looks at. */
  apply(): void {
    if (this.name === 'device') delete document.documentElement.dataset['look'];
    else document.documentElement.dataset['look'] = this.name;
  }
}

export const look = new Look();
