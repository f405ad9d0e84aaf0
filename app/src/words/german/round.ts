import type { Wording } from '../catalogue';
import type { round as english } from '../english/round';

export const round: Wording<typeof english> = {
  'floor.rounds_open': { one: '{count} Rundgang offen', other: '{count} Rundgänge offen' },
  'rounds.title': 'Rundgänge',
  'rounds.open': { one: '{count} Rundgang ist jetzt zu gehen', other: '{count} Rundgänge sind jetzt zu gehen' },
  'rounds.walked': { one: '{count} Rundgang ist gegangen', other: '{count} Rundgänge sind gegangen' },
  'rounds.none runs': {
    one: '{count} Rundgang ist gerade nicht dran',
    other: '{count} Rundgänge sind gerade nicht dran',
  },
  'rounds.none':
    'Keine Maschine hat einen Rundgang. Er entsteht aus Aufgaben des Bedieners, die jede Schicht, jeden Tag oder jede ' +
    'Woche anstehen.',
  'rounds.never': 'Die Rundgänge sind noch nicht auf diesem Gerät; dafür braucht es einmal die Verbindung.',
  'rounds.kept': 'Auf diesem Gerät, Stand vor {age}; sie lassen sich ohne Verbindung gehen.',
  'rounds.not_kept':
    'Dieser Browser kann die Rundgänge nicht behalten: Ohne Verbindung sind sie weg, wenn die Seite geschlossen wird.',
  'rounds.missed_more': { one: 'und {count} weiterer', other: 'und {count} weitere' },

  'turn.ahead': 'steht bevor',
  'turn.open': 'offen',
  'turn.walked': 'gegangen',
  'turn.half walked': 'halb gegangen',
  'turn.missed': 'versäumt',
  'turn.none': 'gerade nicht dran',
  'turn.until': 'bis {until}',
  'turn.shift_until': '{shift}, bis {until}',
  'turn.start_up': 'heute, bevor die Maschine anläuft',

  'round.only_look': 'Dieses Konto sieht den Rundgang und kann ihn nicht beantworten.',
  'round.progress': 'Beantwortete Prüfpunkte',
  'round.answered': '{count} von {all} beantwortet',
  'round.other': { one: '{name} hat {count} davon beantwortet.', other: '{name} hat {count} davon beantwortet.' },
  'round.no_turn': 'Soweit bekannt, ist dieser Rundgang gerade nicht dran. Eingetragenes wird trotzdem festgehalten.',
  'round.kept_from': 'Prüfpunkte und Grenzen: Stand vor {age}.',
  'round.turn_over':
    'Die Zeit, in der dieser Rundgang begann, ist vorbei. Was hier eingetragen wird, zählt noch dafür.',
  'round.turn_leave': 'Zum Rundgang, der jetzt dran ist',
  'round.still_open': 'offen',
  'round.on_device': 'auf diesem Gerät, nicht gesendet',
  'round.refused': 'Der Server hat den Eintrag abgelehnt.',
  'round.all': { one: 'In Ordnung', other: 'Alle {count} sind in Ordnung' },
  'round.others': { one: 'Der andere ist in Ordnung', other: 'Alle {count} anderen sind in Ordnung' },
  'round.others_readings': {
    one: '{count} davon ist ein Messwert; er wird als nicht abgelesen festgehalten.',
    other: '{count} davon sind Messwerte; sie werden als nicht abgelesen festgehalten.',
  },
  'round.walked': 'Der Rundgang ist gegangen',
  'round.walked_by': { one: '{name}: {count} Prüfpunkt', other: '{name}: {count} Prüfpunkte' },
  'round.found_nothing': 'Es wurde nichts gefunden, das nicht in Ordnung ist.',
  'round.found': { one: '{count} Sache gefunden', other: '{count} Sachen gefunden' },
  'round.unsent': {
    one: '{count} Eintrag zu dieser Maschine liegt auf diesem Gerät und ist noch nicht gesendet. Er wird von selbst gesendet.',
    other:
      '{count} Einträge zu dieser Maschine liegen auf diesem Gerät und sind noch nicht gesendet. Sie werden von selbst ' +
      'gesendet.',
  },
  'round.all_sent': 'Alles ist beim Server.',
  'round.to_unsent': 'Was noch nicht gesendet ist',
  'round.to_rounds': 'Zu allen Rundgängen',
  'round.to_machine': 'Zur Maschine',
  'round.not_there': 'Diese Maschine hat keinen solchen Rundgang.',
  'round.not_kept': 'Dieser Rundgang ist noch nicht auf diesem Gerät; dafür braucht es einmal die Verbindung.',

  'check.place': 'Prüfpunkt {number} von {of}',
  'check.now': '{what}, sagt {by}. Eine neue Antwort berichtigt das.',
  'check.as_it_should_be': 'In Ordnung',
  'check.not_so': 'Nicht in Ordnung',
  'check.done': 'Erledigt',
  'check.unreadable': 'Nicht ablesbar',
  'check.unreadable_what': '{what}: nicht ablesbar',
  'check.not_read': 'nicht abgelesen, in Ordnung',
  'check.filled': '{quantity} nachgefüllt',
  'check.filled_in': 'Nachgefüllt',
  'check.none_needed': 'Nicht nötig',
  'check.quantity': 'Nachgefüllt, {unit}',
  'check.reading': '{what} in {unit}',
  'check.write_down': 'Eintragen',
  'check.last': 'Zuletzt: {value}, {when}, {by}',
  'check.last_none': 'Noch nie abgelesen.',
  'check.last_all': 'Die letzten Messwerte, der älteste zuerst: {values}',
  'check.limit_warning': 'Warnung {at}',
  'check.limit_action': 'Eingriff {at}',

  'judgement.not judged': '{what}: {value}, es sind keine Grenzen gesetzt',
  'judgement.as it should be': '{what}: {value} ist in Ordnung',
  'judgement.warning_below': '{what}: {value} ist unter der Warngrenze von {limit}',
  'judgement.warning_above': '{what}: {value} ist über der Warngrenze von {limit}',
  'judgement.action_below': '{what}: {value} ist unter der Eingriffsgrenze von {limit}',
  'judgement.action_above': '{what}: {value} ist über der Eingriffsgrenze von {limit}',
  'typed.no_number': '{what}: „{typed}“ ist keine Zahl; bitte in Ziffern, zum Beispiel 5,2 {unit}.',
  'typed.marks':
    '{what}: „{typed}“ hat mehr als ein Zeichen; nur ein Komma oder einen Punkt schreiben, als Dezimalzeichen: 1234,5',
  'typed.other_unit': '{what}: „{typed}“ ist nicht die Einheit; bitte in {unit} ablesen.',
  'typed.two_meanings': '{what}: „{typed}“ ist auf zwei Arten zu lesen; bitte {thousands} oder {decimal} schreiben.',
  'typed.too_long': '{what}: Das ist zu lang für eine Zahl; richtig ist zum Beispiel 5,2 {unit}.',
  'typed.too_much': '{what}: Das ist mehr, als ein Messgerät anzeigt; bitte noch einmal hinsehen.',
  'typed.below': '{what}: {value} {unit} kann nicht sein; es sind {min} oder mehr.',
  'typed.above': '{what}: {value} {unit} kann nicht sein; es sind {max} oder weniger.',

  'finding.what': 'Was ist nicht in Ordnung?',
  'finding.severity': 'Wann muss etwas geschehen?',
  'finding.choose_severity': 'Bitte eines davon wählen.',
  'finding.stop_first':
    'Wenn jemand verletzt werden könnte: Abstand halten, die Maschine stillsetzen wie eingewiesen und den anderen Bescheid ' +
    'geben.',
  'finding.stop_who':
    'Ob sie steht und wann sie wieder läuft, entscheidet die Leitung der Instandhaltung oder wen der Betrieb dafür nennt, ' +
    'nach der Anleitung des Herstellers und den örtlichen Regeln; nicht dieses Programm, das nie sagt, dass eine Maschine ' +
    'sicher ist.',
  'finding.owner': 'Wer kümmert sich darum?',
  'finding.owner_none': 'noch niemand',
  'finding.write': 'Eintragen',
  'finding.write_under': 'Prüfpunkt und Befund zusammen',
  'finding.known': 'Der Befund ist bekannt; nur der Prüfpunkt',
  'finding.back': 'Zurück',
  'photo.take': 'Foto hinzufügen',
  'photo.taking': 'Wird verkleinert …',
  'photo.number': 'Foto {number}',
  'photo.remove': 'Foto {number} entfernen',
  'photo.no_picture': 'Das ist kein Bild, das dieser Browser zeigen kann. Richtig ist JPEG, PNG oder WebP.',
};
