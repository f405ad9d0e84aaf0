import { describe, expect, it } from 'vitest';
import type { GroupVisit, PlantVisits } from '../../wire/contract';
import { visitDays } from './visits';

const visit = (on: string, from: number, to: number, more: Partial<GroupVisit> = {}): GroupVisit => ({
  on,
  shift: 'early',
  begins_at: `${on}T${String(from).padStart(2, '0')}:00:00Z`,
  ends_at: `${on}T${String(to).padStart(2, '0')}:00:00Z`,
  stops: [{ stop: '1', machine: 'Mill 1' }],
  work_h: 3,
  way_h: 1,
  way_cost: 240,
  currency: 'EUR',
  ...more,
});
const plant = (key: string, visits: GroupVisit[] | null): PlantVisits => ({ key, title: `${key} works`, visits });

describe('visits of the outside service', () => {
  it('are gathered by day, in the order in which they begin', () => {
    const days = visitDays([
      plant('south', [visit('2026-03-04', 14, 22), visit('2026-03-03', 6, 14)]),
      plant('north', [visit('2026-03-04', 6, 14)]),
      plant('west', null),
    ]);
    expect(days.map(({ on }) => on)).toEqual(['2026-03-03', '2026-03-04']);
    expect(days[1]?.visits.map(({ plant: { key } }) => key)).toEqual(['north', 'south']);
    expect(days[1]?.clashes).toEqual([]);
  });

  it('clash where two plants want people at the same time, and say how many', () => {
    const long = visit('2026-03-04', 6, 14, { work_h: 15 });
    const [day] = visitDays([plant('south', [visit('2026-03-04', 10, 18)]), plant('north', [long])]);
    expect(day?.clashes).toEqual([{ plants: ['north works', 'south works'], people: 4 }]);
  });

  it('of one plant do not clash', () => {
    const [day] = visitDays([plant('north', [visit('2026-03-04', 6, 14), visit('2026-03-04', 10, 18)])]);
    expect(day?.clashes).toEqual([]);
  });

  it('need one person however short the shift is', () => {
    const [day] = visitDays([plant('north', [visit('2026-03-04', 6, 7)])]);
    expect(day?.visits[0]?.people).toBe(1);
  });
});
