// Which plants of a kind of part are looked at first.

import type { GroupPartPlant } from '../../wire/contract';

/** How far a plant's failures lie from what it could expect, were all alike; 0 where nothing was expected. */
const farOff = ({ failures, expected = 0 }: GroupPartPlant): number =>
  expected > 0 ? (failures - expected) ** 2 / expected : 0;

/** So many of them at most, those furthest off, in the order in which they came. */
export function furthestOff(plants: readonly GroupPartPlant[], most: number): GroupPartPlant[] {
  const far = [...plants].sort((a, b) => farOff(b) - farOff(a)).slice(0, most);
  return plants.filter((plant) => far.includes(plant));
}
