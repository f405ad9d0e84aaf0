// A feed that is lost, of which a plant's line says no more.

import type { Feed } from '../../wire/contract';

export const LOST: Feed = { state: 'lost', last_sign_at: null, behind: 0, says: '' };
