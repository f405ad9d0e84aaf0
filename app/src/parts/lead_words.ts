// The trigger that a forecast names as the one most likely to come first.

import { everyWords, readCalendar } from './calendar';
import { counterTitle } from './titles';

/** "operating", or "every 12 months". */
export const leadWords = (leads: string): string =>
  readCalendar(leads) === null ? counterTitle(leads) : everyWords(leads);
