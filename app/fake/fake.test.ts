import { Ajv2020 } from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { describe, expect, test } from 'vitest';
import { readContract } from '../steps/contract.mjs';
import { newId } from '../src/wire/uuid';
import { joining } from './joining.mjs';
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
  test('joining', () => {
    expectFits('Join', joining.join());
    expectFits('Devices', joining.devices());
    expect(() => joining.makeJoinCode()).toThrow(/Only this computer/);
  });
  test('readings', () => {
    expectFits('HourReading', shop.readHours('m01', { ...sign(), counter: 'operating', display_h: 5000 }));
    const astray = shop.readHours('m01', { ...sign(), counter: 'operating', display_h: 4000 });
    expect(astray.state).toBe('to be settled');
    expectFits('HourReading', shop.settleReading('m01', astray.id, { ...sign(), settled_as: 'misread' }));
  });
});

test('a wrong answer would be noticed', () => {
  expect(() => expectFits('Floor', { now: 'yesterday', machines: [{}] })).toThrow();
});
