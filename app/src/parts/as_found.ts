import type { AsFound, Task } from '../wire/contract';

export const AS_FOUND: readonly AsFound[] = ['good', 'worn', 'failed'];

/** Is a part opened or taken out, so that what it was like can be seen? */
export const isOpened = (task: Task): boolean => task.work === 'replace' || task.work === 'overhaul';
