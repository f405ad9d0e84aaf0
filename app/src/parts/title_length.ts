// What accounts, devices and programs are called, blanks at the ends left out.

export const TITLE_MAX = 60;

/** Is that a title: 1 to 60 characters? */
export function isTitle(typed: string): boolean {
  const length = [...typed.trim()].length;
  return length > 0 && length <= TITLE_MAX;
}
