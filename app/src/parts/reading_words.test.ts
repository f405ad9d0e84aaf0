import { describe, expect, test } from 'vitest';
import type { ReadingCrossing, ReadingLine } from '../wire/contract';
import { aheadWords, crossingWords, findingWords, pressingWords, trendWords } from './reading_words';

const CROSSING: ReadingCrossing = {
  ...{ limit: 'warning', side: 'below', at: 5.5, beyond: false },
  ...{ first: '2026-12-28', median: '2027-01-14', last: '2027-02-02' },
};
const BARE: ReadingLine = {
  ...{ task: 'air', title: 'Read the air', assembly: 'air', what: 'supply air', unit: 'bar', count: 12 },
};
const AIR: ReadingLine = {
  ...BARE,
  ...{ warning: { min: 5.5 }, action: { min: 5 }, direction: 'falling', slope: -0.0523, crossing: CROSSING },
  last: { value: 5.8, state: 'as it should be', at: '2026-12-20T06:00:00Z', by: 'Ada' },
};
const TODAY = '2026-12-20';

describe('a reading in words', () => {
  test('says how fast it goes, by the week', () => {
    expect(trendWords(AIR)).toBe('falls by 0.37\u00a0bar a week');
    expect(trendWords({ ...AIR, direction: 'none seen' })).toBe('no trend');
  });
  test('says when it meets its limit, and between which days', () => {
    expect(aheadWords(AIR, TODAY)).toBe(
      'will cross 5.5\u00a0bar about 14 January 2027, with 80\u00a0% between 28 December 2026 and 2 February',
    );
  });
  test('says what is open, what hardly comes, and what may have come', () => {
    expect(crossingWords(AIR, { ...CROSSING, last: null }, TODAY)).toContain('hardly before 28 December 2026');
    expect(crossingWords(AIR, { ...CROSSING, median: null }, TODAY)).toContain('hardly crosses');
    const last = { value: 5.5, state: 'as it should be', at: '2026-12-20T06:00:00Z', by: 'Ada' } as const;
    expect(crossingWords({ ...AIR, last }, CROSSING, TODAY)).toBe('lies on its limit of 5.5\u00a0bar');
    expect(crossingWords(AIR, CROSSING, '2027-01-14')).toBe('may have crossed 5.5\u00a0bar since it was last read');
  });
  test('says why there is no trend, and that nobody has set limits', () => {
    const few = {
      ...BARE,
      refused: 'few',
      refusal: { code: 'reading-few', texts: {}, numbers: { count: 2, least: 4 } } as const,
    };
    expect(trendWords(few)).toBe('no trend yet: it was read on 2 days, and a trend needs 4');
    expect(aheadWords(few, TODAY)).toBe('nobody has set limits');
  });
  test('presses with the limit that it is beyond', () => {
    const low: ReadingLine = { ...AIR, last: { value: 4.8, state: 'action', at: '2026-12-20T06:00:00Z', by: 'Ada' } };
    expect(pressingWords(low, TODAY)).toBe('supply air: 4.8\u00a0bar is below the action limit of 5\u00a0bar');
    expect(findingWords(AIR, TODAY)).toMatch(/^supply air: falls by 0\.37\u00a0bar a week; will cross/);
  });
});
