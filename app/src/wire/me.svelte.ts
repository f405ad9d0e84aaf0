// Who has signed in with this browser, and what that person may. It is kept on the device, without any secret, so that a
// round can be walked without a connection under the name of the one who signed in; the server alone decides what is
// taken. What is kept of the shop was seen by that person: when somebody else signs in it is dropped, and the app begins
// anew. What was entered and not sent yet stays, whoever comes.

import { keptStore } from '../kept/store';
import { recall, remember } from '../parts/remembered';
import { client, whenDoubted } from './client';
import { operations } from './contract';
import type { Me as Said, Permission, Role } from './contract';

type Operation = keyof typeof operations;

/** What is of the shop begins when somebody has signed in, and ends when nobody has any more. */
interface Shop {
  begin(): void;
  end(): void;
}

function kept(): Said | null {
  try {
    return JSON.parse(recall('me')) as Said;
  } catch {
    return null;
  }
}

/** Of a person: what has the permission that an operation needs. */
export function isAllowed(said: Said | null, operation: Operation): boolean {
  const needed = operations[operation].permission;
  if (needed === 'open') return true;
  if (said === null || said.name === null) return false;
  return needed === 'self' || said.permissions.includes(needed);
}

class Me {
  /** What the server said last, or what is kept of that; null: it has not been reached yet. */
  said = $state.raw<Said | null>(kept());
  /** As the logbook names the person; '' where nobody has signed in. */
  readonly name = $derived(this.said?.name ?? '');
  readonly isIn = $derived(this.name !== '');
  /** The person has signed in, but may do nothing before a second factor is set up. */
  readonly needsFactor = $derived(this.said?.needs_second_factor === true);
  readonly role = $derived<Role | null>(this.said?.role ?? null);
  readonly permissions = $derived<readonly Permission[]>(this.said?.permissions ?? []);

  /** False until the server has been asked once, whether it answered or not. */
  isAsked = $state(false);

  private shop: Shop | null = null;
  private asked: Promise<boolean> | null = null;

  /** Whoever was signed in before begins at once, also without a connection. */
  async start(shop: Shop): Promise<void> {
    this.shop = shop;
    whenDoubted(() => void this.ask());
    // Another tab signed in or out.
    window.addEventListener('storage', (event) => {
      if (event.key === 'hourwright.me') void this.ask();
    });
    if (this.isIn && !this.needsFactor) shop.begin();
    await this.ask();
  }

  /** May the person do that now? Where nobody has signed in: what is open to everybody. */
  may(operation: Operation): boolean {
    return isAllowed(this.said, operation);
  }

  /** Asks the server anew; false where it cannot be reached. */
  ask(): Promise<boolean> {
    this.asked ??= this.askNow().finally(() => (this.asked = null));
    return this.asked;
  }

  /** What the server answered to signing in or out, or to a question. */
  async take(said: Said): Promise<void> {
    const before = recall('person');
    if (JSON.stringify(said) !== recall('me')) remember('me', said.name === null ? '' : JSON.stringify(said));
    if (said.name !== null) remember('person', said.name);
    if (said.name !== null && before !== '' && before !== said.name) await this.beginAnew();
    this.said = said;
    if (said.name === null || said.needs_second_factor) this.shop?.end();
    else this.shop?.begin();
  }

  /** Ends the session. Throws as the client does. */
  async signOut(): Promise<void> {
    const said = await client.signOut();
    await keptStore.clear();
    await this.take(said);
  }

  private async askNow(): Promise<boolean> {
    try {
      await this.take(await client.me());
      return true;
    } catch {
      return false;
    } finally {
      this.isAsked = true;
    }
  }

  private async beginAnew(): Promise<void> {
    await keptStore.clear();
    window.location.reload();
    // The page goes; nothing of the person before is shown until then.
    await new Promise(() => undefined);
  }
}

export const me = new Me();
