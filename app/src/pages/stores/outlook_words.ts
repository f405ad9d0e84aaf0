// When a part runs out, in a sentence.

import type { StockWeek } from '../../wire/contract';
import { longDay } from '../../words/times';
import { say } from '../../words/words';
import { outlookOf } from './weeks';

export function outlookWords(weeks: readonly StockWeek[]): string {
  const outlook = outlookOf(weeks);
  switch (outlook.is) {
    case 'lacks':
      return say('stock.lacks', { date: longDay(outlook.from) });
    case 'may lack':
      return say('stock.may_lack', { date: longDay(outlook.from) });
    case 'lasts':
      return say('stock.lasts', { count: outlook.weeks });
    case 'not used':
      return say('stock.unused');
  }
}
