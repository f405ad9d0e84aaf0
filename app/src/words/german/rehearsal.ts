// Jahre, unter einem anderen Intervall durchgespielt.

import type { Wording } from '../catalogue';
import type { rehearsal as english } from '../english/rehearsal';

export const rehearsal: Wording<typeof english> = {
  'what_if.title': 'Was ein Jahr brächte',
  'what_if.explain':
    'Spielt das kommende Jahr des ganzen Betriebs viele Male durch, mit dem jetzigen Intervall und mit einem anderen, jedes Jahr bei beiden mit demselben Zufall.',
  'what_if.interval': 'Intervall zum Ausprobieren',
  'what_if.now': 'jetzt {amount}',
  'what_if.play': 'Die Jahre durchspielen',
  'what_if.playing': 'Wird durchgespielt…',
  'what_if.not_now': 'Ein solches Intervall gibt es jetzt nicht, also lässt sich nichts vergleichen.',
  'what_if.failed': 'Es ließ sich nicht durchspielen. {detail}',
  'what_if.same': 'Es kostet in jedem Jahr gleich viel.',
  'what_if.less': '{how} kostet es weniger; im Mittel {saving} im Jahr.',
  'what_if.more': '{how} kostet es weniger; im Mittel {saving} im Jahr mehr.',
  'what_if.unsure': '{how} kostet es weniger; im Mittel gibt es keinen Unterschied, den diese Jahre zeigen könnten.',
  'what_if.nearly_all': 'In fast jedem Jahr',
  'what_if.hardly_any': 'In kaum einem Jahr',
  'what_if.of_ten': { one: 'In {count} von 10 Jahren', other: 'In {count} von 10 Jahren' },
  'what_if.table': 'Ein Jahr des Betriebs',
  'what_if.present': 'Jetzt',
  'what_if.changed': 'Dann',
  'what_if.difference': 'Unterschied',
  'what_if.range': '{from} bis {to}',
  'what_if.failures': 'Ausfälle',
  'what_if.stops': 'Geplante Stillstände',
  'what_if.hands_on_hours': 'Stunden Handarbeit',
  'what_if.standing_hours': 'Stunden, die Maschinen stehen',
  'what_if.cost': 'Kosten',
  'what_if.rests': {
    one: '{count} Jahr durchgespielt, mit {tasks} Aufgaben; {parts} davon ersetzen ein Teil, dessen Lebensdauern bekannt sind, alle anderen sind nur Arbeit.',
    other:
      '{count} Jahre durchgespielt, mit {tasks} Aufgaben; {parts} davon ersetzen ein Teil, dessen Lebensdauern bekannt sind, alle anderen sind nur Arbeit.',
  },
  'what_if.range_means':
    'Mittelwerte; darunter, zwischen welchen Werten 90 von 100 Jahren liegen. Was man über die Lebensdauer eines Teils nicht weiß, steckt in dieser Spanne.',
  'what_if.differs':
    'Das kann anders ausfallen als der Rat oben: Der nimmt jeden Ersatz genau nach seinem Intervall an, in einem Stillstand, den es ohnehin gibt; hier braucht er auch eigene Stillstände und kommt früher, wo einer nahe ist.',
  'what_if.without_use': {
    one: '{count} Aufgabe fehlt: Wie ihr Zähler läuft, ist nicht bekannt.',
    other: '{count} Aufgaben fehlen: Wie ihre Zähler laufen, ist nicht bekannt.',
  },
};
