// How the invented machines are isolated: enough to develop the job card by. What holds for a real one stands in its
// builder's manual.

const point = (key, energy, title, title_de, where, where_de, how, how_de, more = {}) => ({
  ...{ key, energy, title, title_de, where, where_de, how, how_de, ...more },
});

export const ISOLATION = {
  points: [
    point('main', 'electrical', 'Main switch', 'Hauptschalter', 'cabinet, at the back', 'Schaltschrank, hinten', 'Off, lock, tag', 'Aus, Schloss, Anhänger', { wait_minutes: 10 }), // prettier-ignore
    point('air', 'air', 'Air shut-off valve', 'Absperrhahn Druckluft', 'air unit', 'Wartungseinheit', 'Closed and locked; it vents', 'Geschlossen und gesichert; er entlüftet', { point: 3 }), // prettier-ignore
    point('hydraulic', 'hydraulic', 'Hydraulic unit', 'Hydraulikaggregat', 'beside the machine', 'neben der Maschine', 'Pump switch off, lock', 'Pumpenschalter aus, Schloss', { point: 4 }), // prettier-ignore
  ],
  stored: [
    {
      energy: 'hydraulic',
      title: 'Accumulator',
      title_de: 'Druckspeicher',
      release: 'Open the drain valve slowly.',
      release_de: 'Ablassventil langsam öffnen.',
      verify: 'The gauge reads 0 bar.',
      verify_de: 'Das Manometer zeigt 0 bar.',
    },
    {
      energy: 'gravity',
      title: 'Vertical axis',
      title_de: 'Senkrechte Achse',
      release: 'Lower it onto the block.',
      release_de: 'Auf den Klotz absenken.',
      verify: 'It rests; it does not sink.',
      verify_de: 'Sie liegt auf; sie sinkt nicht.',
      wait_minutes: 2,
    },
  ],
  steps: [
    ['prepare', 'Know each energy of this machine and how it is held back; tell everybody concerned.', 'Jede Energie der Maschine und ihre Absperrung kennen; allen Bescheid sagen, die es betrifft.'], // prettier-ignore
    ['shut-down', 'Shut the machine down in its usual way.', 'Die Maschine auf übliche Weise herunterfahren.'],
    ['isolate', 'Open or close every isolation point of the list.', 'Jede Trennstelle der Liste schalten.'],
    ['lock', 'Put your own lock and tag on each.', 'An jede das eigene Schloss und den Anhänger.'],
    ['release', 'Release or hold back what is stored.', 'Gespeicherte Energie ablassen oder festhalten.'],
    ['verify', 'Try that nothing starts and nothing has pressure or voltage.', 'Prüfen, dass nichts anläuft und nichts unter Druck oder Spannung steht.'], // prettier-ignore
  ].map(([code, text, text_de]) => ({ code, text, text_de })),
  way_back: [
    ['tools-out', 'Tools and parts are out, guards are on.', 'Werkzeug und Teile sind heraus, Schutze sind dran.'],
    ['people-clear', 'Nobody is in or at the machine.', 'Niemand ist in oder an der Maschine.'],
    ['locks-off', 'Whoever put a lock on takes it off.', 'Wer ein Schloss gesetzt hat, nimmt es ab.'],
    ['tell-people', 'Tell everybody concerned.', 'Allen Bescheid sagen, die es betrifft.'],
  ].map(([code, text, text_de]) => ({ code, text, text_de })),
  cautions: [
    {
      text: 'Only a licensed electrician opens the cabinet.',
      text_de: 'Den Schaltschrank öffnet nur eine Elektrofachkraft.',
    },
  ],
};
