import { expect, test } from 'vitest';
import { choiceOf, isFiltered, NOTHING_CHOSEN, queryOf } from './choice';

const read = (text: string) => queryOf(choiceOf(new URLSearchParams(text)));

test('an address without filters asks for everything', () => {
  expect(read('')).toEqual({});
  expect(isFiltered(NOTHING_CHOSEN)).toBe(false);
});
test('every filter of the address reaches the server, other values do not', () => {
  const all = 'machine=m01&kind=task+done&by=Ada&from=2026-11-01&to=2026-11-25&text=oil&stray=yes';
  expect(read(`${all}&entry=x`)).toEqual({
    ...{ machine: 'm01', kind: 'task done', by: 'Ada', from: '2026-11-01', to: '2026-11-25' },
    ...{ text: 'oil', stray: 'yes' },
  });
});
test('what is no day, and a stray that is not yes, filter nothing', () => {
  expect(read('from=yesterday&to=25.11.2026&stray=no&text=+')).toEqual({});
});
