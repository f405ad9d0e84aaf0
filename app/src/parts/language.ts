// Which language: what a person chose on this device, else what the device speaks.

import { LANGUAGES } from '../words/catalogue';
import type { Language } from '../words/catalogue';
import { languageFor, spoken } from '../words/language.svelte';
import { recall, remember } from './remembered';

function speak(name: Language): void {
  spoken.name = name;
  document.documentElement.lang = name;
}

export const language = {
  choose(name: Language): void {
    remember('language', name);
    speak(name);
  },
  apply(): void {
    speak(LANGUAGES.find((name) => name === recall('language')) ?? languageFor(navigator.languages));
  },
};
