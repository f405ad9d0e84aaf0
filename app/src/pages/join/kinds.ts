// Which steps a phone needs, guessed from what its browser says of itself; the person may choose otherwise.

export const KINDS = ['android', 'ios', 'other'] as const;
export type PhoneKind = (typeof KINDS)[number];

export function kindOf(userAgent: string): PhoneKind {
  if (/android/i.test(userAgent)) return 'android';
  return /\bOS \d+_\d+.* like Mac/.test(userAgent) ? 'ios' : 'other';
}
