// What this device remembers of its person: small texts, nothing that belongs to the shop. Where the browser refuses to
// remember (private window, storage off), it is forgotten with the page.

const forgettable = new Map<string, string>();

export function remember(key: string, value: string): void {
  forgettable.set(key, value);
  try {
    localStorage.setItem(`hourwright.${key}`, value);
  } catch {
    // Kept in memory above.
  }
}

export function recall(key: string): string {
  try {
    return localStorage.getItem(`hourwright.${key}`) ?? forgettable.get(key) ?? '';
  } catch {
    return forgettable.get(key) ?? '';
  }
}
