// Who did it: a person's name, or our words for the server's own computer.

import { say } from '../../words/words';

export const byWords = (by: string): string => (by === 'this computer' ? say('access.this_computer') : by);
