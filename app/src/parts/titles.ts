// The shop's own titles for its keys.

import type { CardService, KindService } from '../wire/contract';
import { live } from '../wire/live.svelte';
import { spoken } from '../words/language.svelte';
import { say } from '../words/words';

const NAMED = [
  'connected',
  'powered',
  'operating',
  'loaded',
  'spindle',
  'feeding',
  'axis',
  'cutting',
  'revolutions',
  'travel',
  'own',
  'count',
] as const;
type Named = (typeof NAMED)[number];

/** "spindle S1" is one of our words, and the item that is counted; null where the word is none of ours. */
function partsOf(key: string): { named: Named; item: string } | null {
  const [word, ...item] = key.split(' ');
  const named = NAMED.find((one) => one === word);
  return named === undefined ? null : { named, item: item.join(' ') };
}

/** A counter's name as it stands in a sentence after its amount: "12.5 h operating"; one of our words where there is one,
 * else the shop's own title. */
export function counterTitle(key: string): string {
  const parts = partsOf(key);
  if (parts === null) return live.shop?.counter_words.find((one) => one.key === key)?.title ?? key;
  const counter = say(`counter.name.${parts.named}`);
  return parts.item === '' ? counter : say('counter.of_item', { counter, item: parts.item });
}

/** The same as a heading: "Operating". */
export function counterHeading(key: string): string {
  const title = counterTitle(key);
  return title.charAt(0).toUpperCase() + title.slice(1);
}

/** The title of a machine's counter; our own words where there are some, so that they follow the language. */
export function titleOf(counter: { key: string; title: string }): string {
  return partsOf(counter.key) === null ? counter.title : counterHeading(counter.key);
}

/** What exactly a counter counts; our own words where there are some. */
export function counterMeaning(counter: { key: string; definition: string }): string {
  const named = partsOf(counter.key)?.named;
  return named === undefined || named === 'loaded' ? counter.definition : say(`counter.means.${named}`);
}

const inLanguage = ({ title, title_de }: { title: string; title_de: string }) =>
  spoken.name === 'de' && title_de !== '' ? title_de : title;

const kindOf = (key: string) => live.shop?.kinds.find((one) => one.key === key);

export function kindTitle(key: string): string {
  const kind = kindOf(key);
  return kind === undefined ? key : inLanguage(kind);
}

/** The services of a kind of machine. */
export const servicesOf = (kind: string): readonly KindService[] => kindOf(kind)?.services ?? [];

/** "Yearly service" */
export const serviceTitle = (service: CardService): string => inLanguage(service);

/** The same of a service by its key. */
export function titleOfService(kind: string, key: string): string {
  const service = servicesOf(kind).find((one) => one.key === key);
  return service === undefined ? key : serviceTitle(service);
}

export function cellTitle(key: string): string {
  return live.shop?.cells.find((cell) => cell.key === key)?.title ?? key;
}
