// One entry of the outbox to the server, with the moment of sending by the device's clock, from which the server tells
// how far that clock is off.

import { client, Refused, Unreachable } from '../wire/client';
import type { Row } from './entered';
import { outcomeOf } from './flush';
import type { Outcome, Send } from './flush';

type BytesOf = (photo: string) => Promise<ArrayBuffer | undefined>;

async function answerTo(row: Row, bytesOf: BytesOf): Promise<unknown> {
  if (row.operation === 'keepPhoto') return client.keepPhoto(row.id, (await bytesOf(row.id)) ?? new ArrayBuffer(0));
  const body = { ...row.body, sent_at: new Date().toISOString() };
  return client.send(row.operation, row.path, body);
}

/** The answer to an entry names an id; what does not is nobody's of ours, a login page of a network for example. */
function isOurs(answer: unknown): boolean {
  return typeof answer === 'object' && answer !== null && 'id' in answer;
}

export function senderFor(bytesOf: BytesOf): Send {
  return async (row): Promise<Outcome> => {
    try {
      const answer = await answerTo(row, bytesOf);
      return isOurs(answer) ? { is: 'taken', answer } : { is: 'delayed', by: 'unreachable' };
    } catch (error) {
      if (error instanceof Refused) return outcomeOf(error.problem);
      if (error instanceof Unreachable) return { is: 'delayed', by: 'unreachable' };
      throw error;
    }
  };
}
