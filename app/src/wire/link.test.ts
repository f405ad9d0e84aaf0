import { expect, test } from 'vitest';
import { Link, pauseBefore } from './link';
import type { LinkState } from './link';

class FakeSource {
  onopen: (() => void) | null = null;
  onerror: (() => void) | null = null;
  closed = false;
  private readonly handlers = new Map<string, (event: { data: string }) => void>();
  addEventListener(name: string, handler: (event: { data: string }) => void) {
    this.handlers.set(name, handler);
  }
  emit(name: string, data: unknown) {
    this.handlers.get(name)?.({ data: JSON.stringify(data) });
  }
  close() {
    this.closed = true;
  }
}

function scene(isAlive = async () => true) {
  const sources: FakeSource[] = [];
  const timers = new Map<number, { act: () => void; ms: number }>();
  const said: string[] = [];
  let next = 1;
  const link = new Link(
    {
      opened: () => said.push('load'),
      heard: (event, data) => said.push(`${event} ${JSON.stringify(data)}`),
      state: (state: LinkState) => said.push(state),
    },
    {
      open: () => {
        sources.push(new FakeSource());
        return sources.at(-1) as unknown as EventSource;
      },
      isAlive,
      setTimeout: (act, ms) => {
        timers.set(next, { act, ms });
        return next++;
      },
      clearTimeout: (timer) => void timers.delete(timer),
    },
  );
  const fire = () => {
    const [key, timer] = [...timers.entries()][0] ?? [];
    if (key !== undefined) timers.delete(key);
    timer?.act();
    return timer?.ms;
  };
  return { link, sources, said, fire };
}

test('opening loads, and an event is handed on', () => {
  const { link, sources, said } = scene();
  link.open();
  sources[0]?.onopen?.();
  sources[0]?.emit('tasks', { machine: 'm01' });
  expect(said).toEqual(['opening', 'open', 'load', 'tasks {"machine":"m01"}']);
});

test('a lost line is opened again after a growing pause, and then everything is loaded afresh', () => {
  const { link, sources, said, fire } = scene();
  link.open();
  sources[0]?.onerror?.();
  expect(fire()).toBe(pauseBefore(0));
  sources[1]?.onerror?.();
  expect(fire()).toBe(pauseBefore(1));
  sources[2]?.onopen?.();
  expect(said.slice(-2)).toEqual(['open', 'load']);
  expect(sources.slice(0, 2).every((source) => source.closed)).toBe(true);
});

test('resync loads afresh', () => {
  const { link, sources, said } = scene();
  link.open();
  sources[0]?.onopen?.();
  sources[0]?.emit('resync', {});
  expect(said.filter((one) => one === 'load')).toHaveLength(2);
});

test('after silence the server is asked; where it does not answer the line counts as lost', async () => {
  const { link, sources, said, fire } = scene(async () => false);
  link.open();
  sources[0]?.onopen?.();
  fire();
  await Promise.resolve();
  await Promise.resolve();
  expect(said.at(-1)).toBe('lost');
  expect(sources[0]?.closed).toBe(true);
});

test('the pause stops growing', () => {
  expect(pauseBefore(100)).toBe(pauseBefore(4));
});
