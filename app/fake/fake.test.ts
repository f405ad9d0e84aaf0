import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { describe, expect, test } from 'vitest';
import { readContract } from '../steps/contract.mjs';
import { newId } from '../src/wire/uuid';
import { joining } from './joining.mjs';
import { many } from './horizon.mjs';
import { Shop } from './shop.mjs';

const ajv = new Ajv2020({ strict: false, allErrors: true });
formats.default(ajv);
ajv.addSchema({ $id: 'contract', ...readContract() });

function expectFits(name: string, value: unknown) {
  const validate = ajv.compile({ $ref: `contract#/components/schemas/${name}` });
  validate(JSON.parse(JSON.stringify(value)));
  expect(validate.errors ?? []).toEqual([]);
}

const sign = () => ({ id: newId(), by: 'Ada Brandt' });

describe('the invented shop answers as the contract says', () => {
  const shop = new Shop();
  const task = () => shop.machine('m01').tasks[0];

  test('shop, floor, machine, days', () => {
    expectFits('Shop', shop.shop());
    expectFits('Floor', shop.floor());
    expectFits('Machine', shop.machine('m12'));
    expectFits('CounterDays', shop.days('m01', 'operating', '2026-10-01', '2026-11-25'));
    expect(shop.floor().machines).toHaveLength(24);
  });
  test('done and undone', () => {
    const entry = shop.markDone('m01', task().key, sign());
    expectFits('Entry', entry);
    expectFits('Entry', shop.undo(entry.id, sign()));
    expectFits('Machine', shop.machine('m01'));
  });
  test('the same id twice is the same entry', () => {
    const same = sign();
    shop.markDone('m01', task().key, same);
    const count = shop.machine('m01').entries.length;
    shop.markDone('m01', task().key, same);
    expect(shop.machine('m01').entries).toHaveLength(count);
  });
  test('rounds, walked by answers', () => {
    const { machine, rounds } = shop.rounds.rounds('m01').machines[0];
    const [round] = rounds;
    const walk = sign();
    const { key, kind } = round.checks.find((check: { kind: string }) => check.kind !== 'reading');
    expectFits('Rounds', shop.rounds.rounds(null));
    expectFits('Entry', shop.rounds.beginWalk(machine, round.rhythm, { ...walk, checks: [key] }));
    const answers = [{ check: key, kind, answer: 'not so' }];
    const body = { ...sign(), walk: walk.id, others: false, answers };
    expectFits('Entry', shop.rounds.answerChecks(machine, round.rhythm, body));
    const fresh = shop.rounds.rounds('m01');
    expectFits('Rounds', fresh);
    expect(fresh.machines[0].rounds[0].now.answers).toHaveLength(1);
    expect(() =>
      shop.rounds.answerChecks(machine, round.rhythm, {
        ...{ ...sign(), walk: walk.id, others: false },
        answers: [{ check: key, kind: 'reading', value: 1, unit: 'psi' }],
      }),
    ).toThrow(/is read in/);
  });
  test('joining', () => {
    expectFits('Join', joining.join());
    expectFits('Devices', joining.devices());
    expect(() => joining.makeJoinCode()).toThrow(/Only this computer/);
  });
  test('horizon, forecast, backtest, today', () => {
    expectFits('Horizon', shop.dates.horizon(null));
    expectFits('Horizon', many(shop.dates.horizon(null), 200, 40));
    for (const { task } of shop.dates.horizon('m01').machines[0]?.tasks ?? [])
      expectFits('ForecastWorking', shop.dates.forecast('m01', task));
    expectFits('Backtest', shop.dates.backtest('m01', 'operating'));
    expectFits('Today', shop.dates.today());
  });
  test('announced changes of use', () => {
    const change = shop.dates.announce({ ...sign(), from: '2027-01-04', factor: 1.5, why: 'a third shift' });
    expectFits('UseChange', change);
    expectFits('UseChange', shop.dates.withdraw(change.id, sign()));
    expect(() => shop.dates.withdraw(change.id, sign())).toThrow(/already/);
  });
  test('readings', () => {
    expectFits('HourReading', shop.readHours('m01', { ...sign(), counter: 'operating', display_h: 5000 }));
    const astray = shop.readHours('m01', { ...sign(), counter: 'operating', display_h: 4000 });
    expect(astray.state).toBe('to be settled');
    expectFits('HourReading', shop.settleReading('m01', astray.id, { ...sign(), settled_as: 'misread' }));
  });
});

describe('findings, logbook and plan of the invented shop', () => {
  const shop = new Shop();
  const query = (text = '') => new URLSearchParams(text);
  const made = () => shop.findings.make('m01', { ...sign(), what: 'Oil under the tank', severity: 'watch' });

  test('a finding is made, changed, settled and opened again', () => {
    const { id } = made();
    shop.findings.change(id, { ...sign(), owner: 'Ada Brandt', due_on: '2026-12-01' });
    expectFits('Finding', shop.findings.settle(id, { ...sign(), done: 'Seal replaced.' }));
    expectFits('Finding', shop.findings.reopen(id, { ...sign(), why: 'It leaks again.' }));
    expectFits('FindingHistory', shop.findings.history(id));
    expectFits('Findings', shop.findings.list(query('state=all')));
    expect(shop.machine('m01').findings.map((finding) => finding.id)).toContain(id);
  });
  test('the logbook is filtered, turned over and corrected', () => {
    for (let count = 0; count < 3; count += 1) made();
    const first = shop.logbook.page(query('machine=m01&count=2'));
    expectFits('Logbook', first);
    expect([first.entries.length, first.more]).toEqual([2, true]);
    expectFits('Entry', shop.logbook.correct(first.entries[0]?.id, { ...sign(), says: 'It was the other tank.' }));
    expectFits('Proof', shop.logbook.proof());
    expect(shop.logbook.page(query('kind=correction')).entries).toHaveLength(1);
  });
  test('points move and the walk changes', () => {
    expectFits('Entry', shop.movePoints('m02', { ...sign(), points: [{ number: 1, x: 0.25, y: 0.5 }] }));
    expect(shop.machine('m02').points).toContainEqual(expect.objectContaining({ number: 1, x: 0.25, y: 0.5 }));
    const walk = shop.machine('m02').walk.toReversed();
    expectFits('Entry', shop.changeWalk('m02', { ...sign(), points: walk }));
    expect(shop.machine('m02')).toMatchObject({ walk, walk_by_hand: true });
    expectFits('Machine', shop.machine('m02'));
  });
});

describe('stops of the invented shop', () => {
  const shop = new Shop();
  const slot = { on: '2031-01-04', shift: 'weekend' };
  const keysOf = (machine: string) =>
    shop.dates
      .horizon(machine)
      .machines[0]?.tasks.slice(0, 3)
      .map((one: { task: string }) => one.task);
  const agreed = (machine: string) => shop.stops.agree(machine, { ...sign(), ...slot, tasks: keysOf(machine) });

  test('a stop is agreed, changed and closed', () => {
    const stop = agreed('m01');
    expectFits('Stop', stop);
    expectFits('StopCard', shop.stops.card(stop.id));
    expect(() => agreed('m01')).toThrow(/already/);
    const changed = shop.stops.change(stop.id, { ...sign(), version: 1, on: '2031-01-11' });
    expect(changed).toMatchObject({ on: '2031-01-11', version: 2 });
    const [began_at, ended_at] = ['2031-01-11T07:00:00Z', '2031-01-11T09:00:00Z'];
    const done = [{ id: newId(), task: keysOf('m01')[0], as_found: 'worn' }];
    const closed = shop.stops.close(stop.id, { ...sign(), version: 2, began_at, ended_at, done });
    expectFits('Stop', closed);
    expect(closed.tasks.map((one: { state: string }) => one.state)).toEqual(['done', 'left undone', 'left undone']);
    expect(() => shop.stops.change(stop.id, { ...sign(), version: 3 })).toThrow(/closed/);
    expectFits('Stops', shop.stops.list(new URLSearchParams('state=all')));
  });
  test('a stop is withdrawn, and its tasks are free', () => {
    const stop = agreed('m02');
    expectFits('Stop', shop.stops.withdraw(stop.id, { ...sign(), why: 'hot order' }));
    expectFits('Stop', agreed('m02'));
    expectFits('Floor', shop.floor());
  });
  test('an estimate sums up its parts', () => {
    const estimate = shop.proposals.estimate({ machine: 'm03', ...slot, tasks: keysOf('m03') });
    expectFits('StopEstimate', estimate);
    const { total, ...parts } = estimate.cost;
    expect(Object.values(parts).reduce((sum: number, one) => sum + (one as number), 0)).toBeCloseTo(total as number);
  });
  test('a proposal is made, accepted and taken back', () => {
    expect(() => shop.proposals.show()).toThrow(/No proposal/);
    const { id } = shop.proposals.propose({ ...sign(), weeks: 12, seconds: 20 });
    expectFits('Proposal', shop.proposals.show());
    const cancelled = shop.proposals.cancel(id);
    expectFits('Proposal', cancelled);
    const [first] = cancelled.differences as Array<{ key: string; machine: string }>;
    if (first === undefined) throw new Error('nothing is proposed');
    const accepted = shop.proposals.accept(id, { ...sign(), differences: [first.key] });
    expectFits('Accepted', accepted);
    expect(shop.stops.agreed(first.machine)).toHaveLength(1);
    expectFits('Accepted', shop.proposals.undo(id, sign()));
    expect(shop.stops.agreed(first.machine)).toHaveLength(0);
  });
  test('the yearly services are spread, one a Saturday, and the job card names its service', () => {
    const { id, weeks } = shop.proposals.propose({ ...sign(), what: 'services', seconds: 20 });
    expect(weeks).toBe(52);
    const proposal = shop.proposals.cancel(id);
    expectFits('Proposal', proposal);
    const all = proposal.differences as Array<{ key: string; machine: string; on: string; service: string }>;
    expect(all.every(({ service }) => service === 'yearly')).toBe(true);
    expect(new Set(all.map(({ on }) => on)).size).toBe(all.length);
    expect(all.length).toBe(shop.machines.length - 2);
    const { stops } = shop.proposals.accept(id, { ...sign(), differences: [all[0]?.key] });
    const card = shop.stops.card(stops[0].id);
    expectFits('StopCard', card);
    expect(card.service).toMatchObject({ key: 'yearly', title_de: 'Jahreswartung' });
  });
});

test('a wrong answer would be noticed', () => {
  expect(() => expectFits('Floor', { now: 'yesterday', machines: [{}] })).toThrow();
});
