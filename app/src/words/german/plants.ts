import type { Wording } from '../catalogue';
import type { plants as english } from '../english/plants';

export const plants: Wording<typeof english> = {
  'plants.search': 'Werk oder Maschine suchen',
  'plants.search_plant': 'Werk suchen',
  'plants.only_attention': 'Nur, worum sich jemand kümmern muss',
  'plants.shown': {
    one: '{count} Werk von {all} gezeigt, mit {machines} Maschinen',
    other: '{count} Werke von {all} gezeigt, mit {machines} Maschinen',
  },
  'plants.failed': 'Die Werke konnten nicht geladen werden. {detail}',
  'plants.no_plants': 'In dieser Datenbank ist noch kein Werk. Am Rechner des Servers: hourwright found --plant KEY',
  'plants.none_fits': 'Kein Werk passt zur Auswahl.',
  'plants.show_all': 'Alle Werke zeigen',
  'plants.plant': 'Werk',
  'plants.machines': 'Maschinen',
  'plants.feeds': 'Daten',
  'plants.next_stop': 'Nächster Stillstand',
  'plants.running': { one: '{count} von {all} läuft', other: '{count} von {all} laufen' },
  'plants.none': 'keine',
  'plants.none_lost': 'nichts abgerissen',
  'plants.not_held': 'kein Server betreut dieses Werk gerade',
  'plants.old': 'das ist {age} alt',
  'plants.never_told': 'noch nichts gemeldet',
  'plants.to_plant': '{plant} öffnen',
  'plants.attention': {
    one: '{count} Maschine von {all} braucht jemanden',
    other: '{count} Maschinen von {all} brauchen jemanden',
  },
  'plants.weeks_hint':
    'Wie viele Aufgaben wahrscheinlich in jeder Woche fällig werden, und ihre Arbeitsstunden; in der ersten auch, was schon fällig ist. Je kräftiger die Farbe, desto mehr Stunden. Eine Zahl führt zu den Aufgaben im Horizont des Werks.',
  'plants.weeks_caption': 'Aufgaben und Arbeitsstunden, die in jeder Woche fällig werden, nach Werk',
  'plants.all_plants': { one: '{count} Werk', other: 'Alle {count} Werke' },
  'visits.hint':
    'Vereinbarte Stillstände mit Arbeit der Fremdfirma, nach Werk, Tag und Schicht: Wer kommt, erledigt alles in einem Besuch. Stunden gelten für alle ihre Leute zusammen.',
  'visits.none': 'Kein vereinbarter Stillstand eines Werks braucht die Fremdfirma.',
  'visits.failed': 'Die Besuche konnten nicht geladen werden. {detail}',
  'visits.untold': 'Von den Besuchen in {plants} ist noch nichts bekannt.',
  'visits.hours': '{work} Arbeit',
  'visits.way': '{way} Anfahrt, {cost}',
  'visits.people': { one: '{count} Person', other: '{count} Personen' },
  'visits.clash': '{plants} zur selben Zeit: {people}, oder einer der Besuche an einem anderen Tag',
};
