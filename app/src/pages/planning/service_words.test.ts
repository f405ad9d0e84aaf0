import { afterEach, expect, test } from 'vitest';
import type { KindService } from '../../wire/contract';
import { spoken } from '../../words/language.svelte';
import { serviceWords } from './service_words';

const service: KindService = {
  ...{ key: 'yearly', title: 'Yearly service', title_de: 'Jahreswartung', months: 12, people: 2 },
  tasks: ['oil', 'battery', 'belt'],
};

afterEach(() => {
  spoken.name = 'en';
});

test('a service is told with those of its tasks that are done, and its people', () => {
  expect(serviceWords(service, ['oil', 'belt', 'filter'])).toBe('Yearly service: 2 tasks, 2 people');
  expect(serviceWords({ ...service, people: 1 }, ['oil'])).toBe('Yearly service: 1 task, 1 person');
  spoken.name = 'de';
  expect(serviceWords(service, ['oil', 'belt'])).toBe('Jahreswartung: 2 Aufgaben, 2 Personen');
  expect(serviceWords({ ...service, title_de: '' }, ['oil'])).toBe('Yearly service: 1 Aufgabe, 2 Personen');
});
