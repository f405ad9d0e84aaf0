// An account as it is typed, and what of it is not right yet. Outside service comes for some machines and until some day;
// the others have all machines and may have a last day.

import { isTitle } from '../../parts/title_length';
import type { Account, AccountEdit, Role } from '../../wire/contract';

export const ROLES: readonly Role[] = ['operator', 'technician', 'lead', 'viewer', 'outside'];

export interface AccountDraft {
  name: string;
  role: Role;
  machines: string[];
  /** 2026-11-30, or '' for no last day. */
  until: string;
}

export type AccountWrongs = Partial<Record<'name' | 'machines' | 'until', true>>;

export const draftOf = (account?: Account): AccountDraft => ({
  name: account?.name ?? '',
  role: account?.role ?? 'operator',
  machines: [...(account?.machines ?? [])],
  until: account?.until ?? '',
});

export function wrongsOf(draft: AccountDraft): AccountWrongs {
  const isOutside = draft.role === 'outside';
  return {
    ...(isTitle(draft.name) ? {} : { name: true as const }),
    ...(isOutside && draft.machines.length === 0 ? { machines: true as const } : {}),
    ...(isOutside && draft.until === '' ? { until: true as const } : {}),
  };
}

export function editOf({ name, role, machines, until }: AccountDraft): AccountEdit {
  return {
    ...{ name: name.trim(), role },
    ...(role === 'outside' ? { machines } : {}),
    ...(until === '' ? {} : { until }),
  };
}
