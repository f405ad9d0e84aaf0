// What is wrong with a machine's data.

import type { Feed } from '../wire/contract';
import { saidIn } from '../words/sayings';
import { say } from '../words/words';

/** Which trouble it is, and what the server knows in detail; '' when there is none. */
export function feedTrouble({ says, saying }: Feed): string {
  const words = saidIn(saying, says);
  const isWhole = saying === undefined || saying.code === 'feed-no-device';
  return isWhole ? words : `${words} ${say('feed.agent_says', { says })}`;
}
