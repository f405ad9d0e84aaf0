// What the logbook shows: filters as they stand in the page's address and as the server takes them.

export const FILTERS = ['machine', 'kind', 'by', 'from', 'to', 'text', 'stray'] as const;
export type Filter = (typeof FILTERS)[number];
/** '' where a filter lets everything pass. */
export type BookChoice = Readonly<Record<Filter, string>>;

const DAY = /^\d{4}-\d{2}-\d{2}$/;

function valueOf(filter: Filter, value: string): string {
  if (filter === 'stray') return value === 'yes' ? 'yes' : '';
  return (filter === 'from' || filter === 'to') && !DAY.test(value) ? '' : value;
}

/** The filters of an address; what is no day or no "yes" is left out rather than refused. */
export function choiceOf(query: URLSearchParams): BookChoice {
  const pairs = FILTERS.map((filter) => [filter, valueOf(filter, query.get(filter) ?? '')]);
  return Object.fromEntries(pairs) as BookChoice;
}

/** The same as the server takes it: only what filters. */
export function queryOf(choice: BookChoice): Record<string, string> {
  return Object.fromEntries(Object.entries(choice).filter(([, value]) => value.trim() !== ''));
}

export const isFiltered = (choice: BookChoice) => Object.keys(queryOf(choice)).length > 0;
export const NOTHING_CHOSEN = choiceOf(new URLSearchParams());
