import type { Wording } from '../catalogue';
import type { stores as english } from '../english/stores';

export const stores: Wording<typeof english> = {};
