// Joining as the server of one computer answers it: this computer may, and nobody else can reach it.
import { Refusal } from './refusal.mjs';

const NOT_REACHED = 'Only this computer can reach the server, so no other device can join.';

export const joining = {
  join: () => ({ encrypted: false, this_computer: true, device: null, authority: null, addresses: [] }),
  devices: () => ({ devices: [] }),
  makeJoinCode() {
    throw new Refusal(409, 'conflict', NOT_REACHED);
  },
};
