import { expect, test } from 'vitest';
import { answerFor, byAge, cacheNameFor, namesToDrop } from './builds';

const names = ['hourwright build 9 aa', 'something else', 'hourwright build 10 bb', 'hourwright build 8 cc'];

test('a new build comes after all others, a known one keeps its place', () => {
  expect(cacheNameFor('dd', names)).toBe('hourwright build 11 dd');
  expect(cacheNameFor('cc', names)).toBe('hourwright build 8 cc');
  expect(cacheNameFor('aa', [])).toBe('hourwright build 1 aa');
});
test('the newest comes first, by number and not by letter', () => {
  expect(byAge(names)).toEqual([names[2], names[0], names[3]]);
});
test('a build keeps itself and the newest other, and touches nothing that is not ours', () => {
  expect(namesToDrop('bb', names)).toEqual([names[3]]);
  expect(namesToDrop('cc', names)).toEqual([names[0]]);
  expect(namesToDrop('bb', names.slice(1, 3))).toEqual([]);
});
test.each([
  ['GET', 'navigate', '/machine/m01/round/shift', 'page'],
  ['GET', 'navigate', '/', 'page'],
  ['GET', 'navigate', '/labels.pdf', 'network'],
  ['GET', 'navigate', '/api/labels.pdf', 'network'],
  ['GET', 'navigate', '/metrics', 'network'],
  ['GET', 'cors', '/assets/index-4f2a.js', 'file'],
  ['GET', 'no-cors', '/icon.svg', 'file'],
  ['GET', 'cors', '/api/rounds', 'network'],
  ['GET', 'cors', '/healthz', 'network'],
  ['PUT', 'cors', '/assets/x.js', 'network'],
])('%s %s %s is answered by the %s', (method, mode, path, by) => {
  expect(answerFor({ method, mode, url: `http://here${path}` }, 'http://here')).toBe(by);
});
test('nothing of another host is answered', () => {
  expect(answerFor({ method: 'GET', mode: 'cors', url: 'http://there/x.js' }, 'http://here')).toBe('network');
});
