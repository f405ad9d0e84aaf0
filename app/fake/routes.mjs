import { leadOf } from './access.mjs';
import { routesOfDates } from './horizon.mjs';
import { joining } from './joining.mjs';
import { routesOfProposals } from './proposals.mjs';
import { routesOfStops } from './stops.mjs';

// Method, path with one group a name, and what answers: a value, sent as JSON, or { type, body }.
export function routesOf(shop, tell) {
  const changed = (machine, answer) => {
    tell(machine);
    return answer;
  };
  const changedFinding = (finding) => changed(finding.machine, finding);
  return [
    ['GET', /^\/api\/me$/, () => leadOf(shop)],
    ['GET', /^\/api\/shop$/, () => shop.shop()],
    ['GET', /^\/api\/floor$/, () => shop.floor()],
    ['GET', /^\/api\/join$/, () => joining.join()],
    ['GET', /^\/api\/devices$/, () => joining.devices()],
    ['POST', /^\/api\/join-codes$/, () => joining.makeJoinCode()],
    ['GET', /^\/api\/labels\.pdf$/, () => ({ type: 'application/pdf', body: '%PDF-1.4\n%%EOF\n' })],
    ['GET', /^\/api\/machines\/([^/]+)$/, ([m]) => shop.machine(m)],
    [
      'GET',
      /^\/api\/machines\/([^/]+)\/days$/,
      ([m], _, q) => shop.days(m, q.get('counter'), q.get('from'), q.get('to')),
    ],
    ['POST', /^\/api\/machines\/([^/]+)\/tasks$/, ([m], body) => changed(m, shop.addTask(m, body))],
    ['PUT', /^\/api\/machines\/([^/]+)\/tasks\/([^/]+)$/, ([m, t], body) => changed(m, shop.changeTask(m, t, body))],
    [
      'POST',
      /^\/api\/machines\/([^/]+)\/tasks\/([^/]+)\/done$/,
      ([m, t], body) => changed(m, shop.markDone(m, t, body)),
    ],
    [
      'POST',
      /^\/api\/machines\/([^/]+)\/tasks\/([^/]+)\/retire$/,
      ([m, t], body) => changed(m, shop.retireTask(m, t, body)),
    ],
    ['POST', /^\/api\/entries\/([^/]+)\/undo$/, ([e], body) => ((a) => changed(a.machine, a))(shop.undo(e, body))],
    ['POST', /^\/api\/machines\/([^/]+)\/hour-readings$/, ([m], body) => changed(m, shop.readHours(m, body))],
    [
      'POST',
      /^\/api\/machines\/([^/]+)\/hour-readings\/([^/]+)\/settle$/,
      ([m, r], body) => changed(m, shop.settleReading(m, r, body)),
    ],
    ['POST', /^\/api\/machines\/([^/]+)\/points$/, ([m], body) => changed(m, shop.movePoints(m, body))],
    ['POST', /^\/api\/machines\/([^/]+)\/walk$/, ([m], body) => changed(m, shop.changeWalk(m, body))],
    ['GET', /^\/api\/logbook$/, (_, __, q) => shop.logbook.page(q)],
    ['GET', /^\/api\/logbook\.csv$/, (_, __, q) => ({ type: 'text/csv; charset=utf-8', body: shop.logbook.csv(q) })],
    ['GET', /^\/api\/logbook\/proof$/, () => shop.logbook.proof()],
    [
      'POST',
      /^\/api\/entries\/([^/]+)\/correct$/,
      ([e], body) => ((a) => changed(a.machine, a))(shop.logbook.correct(e, body)),
    ],
    ['GET', /^\/api\/rounds$/, (_, __, q) => shop.rounds.rounds(q.get('machine'))],
    [
      'POST',
      /^\/api\/machines\/([^/]+)\/rounds\/([^/]+)\/walks$/,
      ([m, r], body) => changed(m, shop.rounds.beginWalk(m, r, body)),
    ],
    [
      'POST',
      /^\/api\/machines\/([^/]+)\/rounds\/([^/]+)\/answers$/,
      ([m, r], body) => changed(m, shop.rounds.answerChecks(m, r, body)),
    ],
    ['GET', /^\/api\/findings$/, (_, __, q) => shop.findings.list(q)],
    ['POST', /^\/api\/machines\/([^/]+)\/findings$/, ([m], body) => changed(m, shop.findings.make(m, body))],
    ['GET', /^\/api\/findings\/([^/]+)$/, ([f]) => shop.findings.history(f)],
    ['POST', /^\/api\/findings\/([^/]+)\/change$/, ([f], body) => changedFinding(shop.findings.change(f, body))],
    ['POST', /^\/api\/findings\/([^/]+)\/settle$/, ([f], body) => changedFinding(shop.findings.settle(f, body))],
    ['POST', /^\/api\/findings\/([^/]+)\/reopen$/, ([f], body) => changedFinding(shop.findings.reopen(f, body))],
    ['PUT', /^\/api\/photos\/([^/]+)$/, ([p], photo) => shop.findings.keepPhoto(p, photo)],
    ['GET', /^\/api\/photos\/([^/]+)$/, ([p]) => shop.findings.photo(p)],
    ...routesOfDates(shop.dates, tell),
    ...routesOfProposals(shop.proposals, tell),
    ...routesOfStops(shop.stops, tell),
  ];
}
