import { expect, test } from 'vitest';
import type { TaskReading } from '../wire/contract';
import { judge } from './judge';

const air: TaskReading = { what: 'supply air', unit: 'bar', warning: { min: 5.5 }, action: { min: 5 } };
const strength: TaskReading = { what: 'strength', unit: '%', warning: { min: 5, max: 10 }, action: { min: 3 } };

test.each([
  [4.9, 'action', 'supply air: 4.9\u00a0bar is below the action limit of 5\u00a0bar'],
  [5, 'warning', 'supply air: 5\u00a0bar is below the warning limit of 5.5\u00a0bar'],
  [5.5, 'as it should be', 'supply air: 5.5\u00a0bar is as it should be'],
])('%s bar is judged %s', (value, state, says) => expect(judge(air, value)).toEqual({ state, says }));

test.each([
  [2.9, 'action'],
  [3, 'warning'],
  [10, 'as it should be'],
  [10.1, 'warning'],
  [90, 'warning'],
])('a strength of %s %% is judged %s', (value, state) => expect(judge(strength, value).state).toBe(state));

test('without limits nothing is judged, and a pH needs no unit again', () => {
  expect(judge({ what: 'pH', unit: 'pH' }, 8.4)).toEqual({ state: 'not judged', says: 'pH: 8.4, no limits are set' });
  expect(judge({ what: 'pH', unit: 'pH', warning: {} }, 8.4).state).toBe('not judged');
});
