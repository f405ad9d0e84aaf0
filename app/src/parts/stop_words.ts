// A stop in words: when, how long, who.

import type { Skill, Stop, StopTask, TaskReading } from '../wire/contract';
import { plannedDay } from '../words/times';
import { number, say } from '../words/words';
import { printReading } from './judge';

/** "Sat, 28 November 2026, early shift" */
export function slotWords({ on, shift }: Pick<Stop, 'on' | 'shift'>): string {
  return shift === '' ? plannedDay(on) : say('stop.slot', { day: plannedDay(on), shift });
}

/** Minutes as hours with one digit: "3.5 h"; less than an hour as minutes. */
export const lengthWords = (minutes: number): string =>
  minutes < 60 ? `${number(minutes)}\u00a0min` : `${number(minutes / 60, 1)}\u00a0h`;

export interface PeopleHours {
  skill: Skill;
  minutes: number;
}

/** Hands-on work by skill, the most first. */
export function peopleOf(tasks: ReadonlyArray<Pick<StopTask, 'skill' | 'minutes'>>): PeopleHours[] {
  const skills = [...new Set(tasks.map(({ skill }) => skill))];
  const minutesOf = (skill: Skill) =>
    tasks.filter((task) => task.skill === skill).reduce((sum, { minutes }) => sum + minutes, 0);
  return skills.map((skill) => ({ skill, minutes: minutesOf(skill) })).sort((a, b) => b.minutes - a.minutes);
}

/** "technician 2.5 h, operator 20 min" */
export const peopleWords = (tasks: ReadonlyArray<Pick<StopTask, 'skill' | 'minutes'>>): string =>
  peopleOf(tasks)
    .map(({ skill, minutes }) => `${say(`skill.${skill}`)} ${lengthWords(minutes)}`)
    .join(', ');

/** "Warn below 4 bar, Act below 3 bar"; '' for a reading without limits. */
export function limitWords(reading: TaskReading): string {
  const { warning, action } = reading;
  const limits = { actionMin: action?.min, warningMin: warning?.min, warningMax: warning?.max, actionMax: action?.max };
  return (Object.keys(limits) as Array<keyof typeof limits>)
    .flatMap((name) => {
      const at = limits[name];
      return at === undefined ? [] : [`${say(`form.limit_${name}`)} ${printReading(reading, at)}`];
    })
    .join(', ');
}
