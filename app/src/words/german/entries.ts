import type { Wording } from '../catalogue';
import type { entries as english } from '../english/entries';

export const entries: Wording<typeof english> = {
  'entry_says.task done': '{title}: erledigt',
  'entry_says.task added': '{title}: hinzugefügt (Fassung {version})',
  'entry_says.task changed': '{title}: geändert (Fassung {version})',
  'entry_says.task retired': '{title}: stillgelegt (Fassung {version})',
  'entry_says.undone': 'zurückgenommen: {title}: erledigt',
  'entry_says.hours read': 'Stundenanzeige abgelesen: {hours} ({counter}). {verdict}',
  'entry_says.hours settled': 'Stundenanzeige {hours} ({counter}): {settled_as}',
  'entry_says.round begun': {
    one: 'Rundgang begonnen ({rhythm}), {count} Prüfpunkt',
    other: 'Rundgang begonnen ({rhythm}), {count} Prüfpunkte',
  },
  'entry_says.others as they should be': 'alle anderen in Ordnung: {titles}',
  'entry_says.finding made': 'Befund ({severity}): {what}',
  'entry_says.finding changed': '{title}: {changes}',
  'entry_says.finding settled': '{title}: erledigt: {done}',
  'entry_says.finding reopened':
    '{title}: wieder offen: {why}; wo er die Maschine stillsetzt, entscheidet die Leitung der Instandhaltung oder wen der Betrieb dafür nennt, ob sie läuft',
  'entry_says.correction': 'zu Eintrag {ordinal}: {right}',
  'entry_says.points moved': 'auf dem Plan verschobene Stellen: {points}',
  'entry_says.walk changed': 'Reihenfolge von Hand: {order}',
  'entry_says.use announced': 'vom {from} an das {factor}-Fache der üblichen Nutzung: {why}',
  'entry_says.use withdrawn': 'zurückgenommen: vom {from} an das {factor}-Fache der üblichen Nutzung',
  'told.announced_until': 'vom {from} bis {until} das {factor}-Fache der üblichen Nutzung: {why}',
  'told.walk_computed': 'Reihenfolge: aus den Orten der Stellen berechnet',
  'told.who_decides':
    '{says}; ob sie läuft, entscheidet die Leitung der Instandhaltung oder wen der Betrieb dafür nennt',
  'told.unlinked': '{says}; ohne die Aufgabe, die ihn erledigen sollte: {why}',
  'told.severity': 'Schwere: {severity}',
  'told.owner': 'zuständig: {owner}',
  'told.no_owner': 'niemand mehr zuständig',
  'told.due_on': 'zu erledigen bis {date}',
  'told.no_due_on': 'kein Tag mehr',
  'told.task': 'Aufgabe {task}',
  'told.no_task': 'keine Aufgabe mehr',
  'told.photos': { one: 'ein Foto', other: '{count} Fotos' },
  'told.note': 'eine Bemerkung',
  'told.work_done': 'erledigt',
  'told.work_not_done': 'nicht erledigt',
  'entry_says.check answered': '{title}: {answer}',
};
