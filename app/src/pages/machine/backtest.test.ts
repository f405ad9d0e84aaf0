import { expect, test } from 'vitest';
import type { Backtest, BacktestRow } from '../../wire/contract';
import { leastLoss, naiveNames } from './backtest';

const row = (inside80: number, loss: number, naive: number): BacktestRow => ({
  ...{ horizon_days: 10, forecasts: 50, inside80, width_days: 4, loss },
  naive: [{ name: 'mean of 365 days', loss: naive }],
});
const backtest: Backtest = {
  ...{ machine: 'm01', counter: 'operating', unit: 'h', days: 300, last: 50, last_inside80: 41 },
  rows: [row(41, 1.5, 2), row(38, 3, 2.5)],
};

test('the least loss may be a plain forecast’s', () => expect(backtest.rows.map(leastLoss)).toEqual([1.5, 2.5]));
test('each plain forecast is named once', () => expect(naiveNames(backtest)).toEqual(['mean of 365 days']));
