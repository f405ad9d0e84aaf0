/** A text as it is searched: without case, accents and spaces around it. */
export const folded = (text: string): string => text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase().trim();
