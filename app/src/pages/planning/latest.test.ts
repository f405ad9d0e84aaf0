import { expect, test } from 'vitest';
import { Latest } from './latest';

/** Asks that are answered by hand, one after the other. */
function bench() {
  const asked: number[] = [];
  const heard: number[] = [];
  const failed: string[] = [];
  let answer: (failure?: Error) => void = () => undefined;
  const latest = new Latest<number, number>(
    (wish) => {
      asked.push(wish);
      return new Promise((resolve, reject) => (answer = (failure) => (failure ? reject(failure) : resolve(wish * 10))));
    },
    (value) => heard.push(value),
    (error) => failed.push(String(error)),
  );
  const settle = async (failure?: Error) => {
    answer(failure);
    for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
  };
  return { latest, asked, heard, failed, settle };
}

test('one question is in flight, and of those that wait only the latest is asked', async () => {
  const { latest, asked, heard, settle } = bench();
  for (const wish of [1, 2, 3, 4]) latest.want(wish);
  expect(asked).toEqual([1]);
  await settle();
  expect(asked).toEqual([1, 4]);
  await settle();
  expect(heard).toEqual([10, 40]);
});

test('what is forgotten is not told, and the next wish is asked all the same', async () => {
  const { latest, asked, heard, settle } = bench();
  latest.want(1);
  latest.forget();
  latest.want(2);
  await settle();
  expect([asked, heard]).toEqual([[1, 2], []]);
  await settle();
  expect(heard).toEqual([20]);
});

test('a failure is told, and does not end the asking', async () => {
  const { latest, heard, failed, settle } = bench();
  latest.want(1);
  await settle(new Error('no'));
  latest.want(2);
  await settle();
  expect([failed, heard]).toEqual([['Error: no'], [20]]);
});
