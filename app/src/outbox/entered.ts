// What a person can enter without a connection: one operation of the server's, with everything that sending it needs
// except the moment of sending. The id in the body is made once, so that sending again enters nothing twice.

import type {
  AnswersEdit,
  DoneEdit,
  FindingChange,
  FindingEdit,
  FindingReopen,
  FindingSettle,
  MovementEdit,
  PhotoName,
  Rhythm,
  Saying,
  StopClose,
  WalkEdit,
} from '../wire/contract';

/** A photo's row carries no body of the contract's; its bytes lie beside it. */
interface PhotoEdit {
  id: string;
  by: string;
  at: string;
}

interface Operations {
  beginWalk: { path: { machine: string; rhythm: Rhythm }; body: WalkEdit };
  answerChecks: { path: { machine: string; rhythm: Rhythm }; body: AnswersEdit };
  makeFinding: { path: { machine: string }; body: FindingEdit };
  changeFinding: { path: { finding: string }; body: FindingChange };
  settleFinding: { path: { finding: string }; body: FindingSettle };
  reopenFinding: { path: { finding: string }; body: FindingReopen };
  closeStop: { path: { stop: string }; body: StopClose };
  markDone: { path: { machine: string; task: string }; body: DoneEdit };
  moveStock: { path: Record<string, never>; body: MovementEdit };
  keepPhoto: { path: { photo: string }; body: PhotoEdit };
}

/** Who it is shown to while it waits: on which machine ('' where none is meant), and what, in the person's words. */
export interface About {
  machine: string;
  what: string;
}

/** Every entry says by the device's clock when it was entered. */
export type Dated<Body> = Omit<Body, 'sent_at'> & { at: string };

export type OperationName = keyof Operations;
export type Entered<Name extends OperationName = OperationName> = {
  [One in Name]: { operation: One; path: Operations[One]['path']; body: Dated<Operations[One]['body']>; about: About };
}[Name];

/** Why the server said no. */
export interface Refusal {
  status: number;
  detail: string;
  saying?: Saying;
}

/** waiting: to be sent; sent: the server has it, and what it shows does not have it yet; refused: a person must look. */
export type RowState = 'waiting' | 'sent' | 'refused';

export type Row<Name extends OperationName = OperationName> = Entered<Name> & {
  /** The order in which things were entered, and in which they are sent. */
  order: number;
  id: string;
  state: RowState;
  refusal?: Refusal;
  /** Unix ms by the device's clock, of a sent row. */
  sentAtMs?: number;
};

/** A photo as it is sent. */
export interface TakenPhoto extends PhotoName {
  bytes: ArrayBuffer;
}

export const isOf = <Name extends OperationName>(row: Row, name: Name): row is Extract<Row, { operation: Name }> =>
  row.operation === name;

/** The photos that an entry names; they are sent before it. */
export function photosOf(row: Entered): PhotoName[] {
  return 'photos' in row.body ? (row.body.photos ?? []) : [];
}
