// Visits of the outside service to the plants of a group, by day, and which of a day need people at the same time.

import type { GroupVisit, PlantVisits } from '../../wire/contract';
import { byTitle } from './summary';

const HOUR_MS = 3_600_000;

export interface Visit extends GroupVisit {
  plant: Pick<PlantVisits, 'key' | 'title'>;
  /** How many have to come to do it within the shift, the way included; 1 at least. */
  people: number;
}

/** Visits to several plants that overlap in time. */
export interface Clash {
  /** Titles. */
  plants: string[];
  people: number;
}

export interface VisitDay {
  /** A local date of the plants. */
  on: string;
  visits: Visit[];
  clashes: Clash[];
}

/** Of so many people each comes by the same way, and has the rest of the shift for the work. */
function peopleOf({ begins_at, ends_at, work_h, way_h }: GroupVisit): number {
  const leftHours = (Date.parse(ends_at) - Date.parse(begins_at)) / HOUR_MS - way_h;
  return leftHours > 0 ? Math.max(1, Math.ceil(work_h / leftHours - 1e-9)) : 1;
}

const overlap = (one: Visit, other: Visit) => one.begins_at < other.ends_at && other.begins_at < one.ends_at;

/** What overlaps, directly or by way of others, is one clash if it is of several plants. */
function clashesOf(visits: readonly Visit[]): Clash[] {
  const groups: Visit[][] = [];
  for (const visit of visits) {
    const met = groups.filter((group) => group.some((one) => overlap(one, visit)));
    for (const group of met) groups.splice(groups.indexOf(group), 1);
    groups.push([...met.flat(), visit]);
  }
  return groups
    .map((group) => ({
      plants: [...new Set(group.map(({ plant }) => plant.title))].sort(byTitle),
      people: group.reduce((sum, { people }) => sum + people, 0),
    }))
    .filter(({ plants }) => plants.length > 1);
}

/** By rising day; those of a day by when they begin, then by plant. */
export function visitDays(plants: readonly PlantVisits[]): VisitDay[] {
  const days = new Map<string, Visit[]>();
  for (const { key, title, visits } of plants) {
    for (const visit of visits ?? []) {
      const there = days.get(visit.on) ?? [];
      days.set(visit.on, [...there, { ...visit, plant: { key, title }, people: peopleOf(visit) }]);
    }
  }
  return [...days]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([on, visits]) => {
      visits.sort((a, b) => Date.parse(a.begins_at) - Date.parse(b.begins_at) || byTitle(a.plant.title, b.plant.title));
      return { on, visits, clashes: clashesOf(visits) };
    });
}
