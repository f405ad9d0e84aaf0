// Which language: what a person chose on this device, else what the device speaks.

import { LANGUAGES, learn } from '../words/catalogue';
import type { Language } from '../words/catalogue';
import { languageFor, spoken } from '../words/language.svelte';
import { recall, remember } from './remembered';

async function speak(name: Language): Promise<void> {
  await learn(name);
  spoken.name = name;
  document.documentElement.lang = name;
}

const wished = () => LANGUAGES.find((name) => name === recall('language')) ?? languageFor(navigator.languages);

export const language = {
  /** The pages go on in the language so far where the other's texts cannot be fetched. */
  async choose(name: Language): Promise<void> {
    remember('language', name);
    await speak(name).catch(() => undefined);
  },
  /** Resolves when the pages can speak. */
  async apply(): Promise<void> {
    await speak(wished()).catch(() => speak('en'));
  },
};
