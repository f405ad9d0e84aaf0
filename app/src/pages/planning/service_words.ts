// A service in words.

import { serviceTitle } from '../../parts/titles';
import type { KindService } from '../../wire/contract';
import { say } from '../../words/words';

/** "Yearly service: 9 tasks, 2 people"; of the tasks that are given, those that are the service's are counted. */
export function serviceWords(service: KindService, tasks: readonly string[]): string {
  const count = tasks.filter((task) => service.tasks.includes(task)).length;
  const people = say('propose.people', { count: service.people });
  return say('propose.service', { title: serviceTitle(service), count, people });
}
