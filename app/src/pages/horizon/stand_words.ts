// What a mark or a stop of the drawing says when it is pointed at, picked, or has the focus.

import { forecastWords } from '../../parts/forecast_words';
import { lengthWords, slotWords } from '../../parts/stop_words';
import { live } from '../../wire/live.svelte';
import { say } from '../../words/words';
import type { Stand } from './blocks';
import { lefts } from './lefts.svelte';

/** One sentence without its point; '' of a proposed stop, which the panel tells of. */
export function sentence({ mark, block }: Stand): string {
  if (block?.planned.stop) {
    const { stop, tasks } = block.planned;
    const machine = live.nameOf(stop.machine);
    const words = { machine, slot: slotWords(stop), count: tasks.length, length: lengthWords(stop.minutes) };
    return say('horizon.stop_sentence', words);
  }
  if (!mark) return '';
  const { task, machine } = mark.dated;
  const words = { task: task.title, machine: machine.name, when: forecastWords(task.forecast, task.state) };
  const left = lefts.of(machine.machine, task.task);
  return left === '' ? say('horizon.sentence', words) : say('horizon.sentence_left', { ...words, left });
}
