// Where a plant's own site says more of a kind of part.

import { partAddress, plantAddress } from '../../route.svelte';
import type { GroupPart } from '../../wire/contract';

export const placeOfPlant = (plant: string, { kind, task }: GroupPart): string =>
  plantAddress(plant, partAddress(kind, task));
