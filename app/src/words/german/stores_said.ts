import type { Wording } from '../catalogue';
import type { stores_said as english } from '../english/stores_said';

export const stores_said: Wording<typeof english> = {
  'said.no-stored-part': 'Das Lager führt {part} nicht.',
  'said.parts-ring': '{parts} ersetzen einander im Kreis. Eines davon weglassen.',
  'said.part-whole': '{part} wird gezählt: {quantity} ist keine ganze Zahl.',
  'said.part-unit': '{part} wurde schon bewegt, gezählt in {unit}: Die Einheit bleibt.',
  'said.stock-below-nothing':
    'Weniger als nichts von {part} kann nicht da sein. Was fehlt, zeigt sich als Unterschied, wenn jemand zählt.',
  'said.serials-count': 'Jedes {part} hat eine Seriennummer: für jedes eine nennen.',
  'said.more-than-ordered': '{came} von {part} kamen, und {left} standen noch aus.',
  'said.no-order': 'Eine solche Bestellung gibt es nicht.',
  'said.order-over': 'Die Bestellung ist erledigt: Es steht nichts mehr aus.',
  'said.part-changed': 'Jemand hat {part} inzwischen geändert. Bitte die Seite neu laden und die Eingabe wiederholen.',
  'said.stores-changed': 'Jemand hat das Lager inzwischen geändert. Die Tabelle noch einmal senden.',
  'said.part-there': '{part} wird noch geführt: Es ist etwas davon da.',
  'said.part-ordered': '{part} wird noch geführt: Es ist etwas davon bestellt.',
  'said.part-in-kit': '{part} wird noch geführt: Es gehört zu einem Teilesatz.',
  'said.part-substitute': '{part} wird noch geführt: Ein anderes Teil nennt es als Ersatz.',
  'said.parts-all-named': 'Zu jedem Namen in den Aufgaben gibt es schon ein Teil.',
  'said.price-assumed': 'Niemand hat gesagt, was es kostet; gerechnet mit {price}, der Mitte der bekannten Preise.',
  'said.lead-assumed': {
    one: 'Niemand hat gesagt, wie lange es braucht; begonnen mit {days} Tag.',
    other: 'Niemand hat gesagt, wie lange es braucht; begonnen mit {days} Tagen.',
  },
  'said.wanted-chance': 'Gewünscht: Keinem Stillstand fehlt ein Teil seines Teilesatzes, mit {chance} %.',
  'said.needs-assumed':
    'Aufgaben brauchen ihre Teile, wenn sie fällig werden, in jeder Runde neu; der Bedarf ist unabhängig.',
  'said.needed-for-stops': 'Vereinbarte Stillstände brauchen {quantity} bis {until}, der erste am {first}.',
  'said.needed-when-due': 'Was fällig wird, braucht voraussichtlich {quantity} bis {until}.',
  'said.needed-for-failures': 'Ausfälle brauchen voraussichtlich {quantity} bis {until}.',
  'said.delivery-takes':
    'Lieferzeit in Tagen: {days}, mit 95 % höchstens {days_95}; angegeben {quoted}, gesehene Lieferungen: {count}.',
  'said.too-late-to-be-sure': 'Auch heute bestellt ist es nur mit {chance} % rechtzeitig da, nicht mit {wanted} %.',
  'said.order-open': {
    one: '{quantity} sind bestellt, am längsten seit {days} Tag; bis dahin sind {chance} % der Lieferungen da.',
    other: '{quantity} sind bestellt, am längsten seit {days} Tagen; bis dahin sind {chance} % der Lieferungen da.',
  },
  'said.joins-an-order': 'Es hat Zeit bis {last}, geht aber mit einer Bestellung mit, die ohnehin aufgegeben wird.',
  'said.more-costs-less':
    '{quantity} statt der {least}, die genügten: Weniger Bestellungen sparen mehr, als das Lagern kostet.',
  'said.minimum-raises': '{quantity} statt {least}: so viel muss mindestens bestellt werden.',
  'said.shelf-life-limits': 'Nicht mehr als {quantity}, die innerhalb der Haltbarkeit gebraucht werden.',
  'said.may-outlive-shelf': 'Alle {quantity} werden nur mit {chance} % innerhalb der Haltbarkeit gebraucht.',
  'said.chase-open-order': {
    one: 'Was bestellt ist, reicht, kommt aber vielleicht zu spät: {chance} % für den Bedarf des nächsten Tages ({days}). Beim Lieferanten nachfragen.',
    other:
      'Was bestellt ist, reicht, kommt aber vielleicht zu spät: {chance} % für den Bedarf der nächsten {days} Tage. Beim Lieferanten nachfragen.',
  },
  'said.sheet-no-key': 'Keine Spalte mit den Nummern der Teile gefunden; bitte angeben, welche es ist.',
  'said.sheet-number-missing': 'Die Nummer des Teils fehlt.',
  'said.sheet-title-missing': 'Das Teil ist neu und hat keine Bezeichnung.',
  'said.sheet-twice': '{part} steht in den Zeilen {rows}; richtig ist eine Zeile je Teil.',
  'said.sheet-no-number': '„{text}“ ist keine Zahl; richtig ist zum Beispiel 12,50.',
  'said.sheet-two-ways':
    '„{text}“ kann {less} oder {more} sein, und keine andere Zahl der Spalte sagt, was; bitte ohne Tausenderzeichen schreiben oder mit einer 0 mehr am Ende.',
  'said.sheet-negative': '{value} kann nicht im Fach liegen; richtig ist 0 oder mehr.',
  'said.sheet-not-whole': '{value} ist keine ganze Zahl ({unit}).',
  'said.sheet-yes-no': '„{text}“ ist weder Ja noch Nein.',
  'said.sheet-no-supplier':
    'Es ist die Nummer eines Lieferanten, und das Teil hat keinen; bitte in eigener Spalte nennen.',
  'said.sheet-mistakes': 'Zeilen mit Fehlern: {rows}. Nichts wurde übernommen.',
};
