import { expect, test } from 'vitest';
import { keptIn } from './kept';

test('an empty address means everything, for thirteen weeks, in the usual form', () => {
  expect(keptIn(new URLSearchParams(), 'list')).toEqual({
    choice: { cell: '', search: '', skill: '', by: '' },
    weeks: 13,
    form: 'list',
  });
});

test('what is chosen comes back', () => {
  const query = new URLSearchParams('weeks=52&as=list&cell=shafts&find=oil&skill=technician&by=2026-12-24');
  expect(keptIn(query, 'drawing')).toEqual({
    choice: { cell: 'shafts', search: 'oil', skill: 'technician', by: '2026-12-24' },
    weeks: 52,
    form: 'list',
  });
});

test('nonsense is left out', () => {
  const { choice, weeks, form } = keptIn(new URLSearchParams('weeks=99&as=pie&skill=king&by=soon'), 'drawing');
  expect([choice.skill, choice.by, weeks, form]).toEqual(['', '', 13, 'drawing']);
});
