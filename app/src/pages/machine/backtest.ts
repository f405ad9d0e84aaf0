// Past forecasts beside plain ones.

import type { Backtest, BacktestRow } from '../../wire/contract';

/** The names of the plain forecasts, in the order in which they first appear. */
export const naiveNames = (backtest: Backtest) => [
  ...new Set(backtest.rows.flatMap((row) => row.naive.map(({ name }) => name))),
];

/** The least loss of a row, ours or a plain one. */
export const leastLoss = (row: BacktestRow): number => Math.min(row.loss, ...row.naive.map(({ loss }) => loss));
