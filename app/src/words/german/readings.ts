import type { Wording } from '../catalogue';
import type { readings as english } from '../english/readings';

export const readings: Wording<typeof english> = {
  'form.readings': 'Was abgelesen und aufgeschrieben wird',
  'form.readings_hint':
    'Eine Ablesung wird beim Eintippen sofort beurteilt. Eine Grenze, die es nicht gibt, bleibt leer; ein Wert auf der Grenze gilt als innerhalb.',
  'form.reading': 'Ablesung {number}',
  'form.reading_what': 'Was',
  'form.reading_what_hint': 'pH-Wert, Zuluft, Ölstand',
  'form.reading_unit': 'Einheit der Ablesung',
  'form.reading_unit_hint': 'bar, °C, % oder mm',
  'form.limit_actionMin': 'Eingreifen unter',
  'form.limit_warningMin': 'Warnen unter',
  'form.limit_warningMax': 'Warnen über',
  'form.limit_actionMax': 'Eingreifen über',
  'form.add_reading': 'Ablesung hinzufügen',
  'form.remove_reading': 'Ablesung {number} entfernen',
  'form.same_reading': 'So heißt schon eine andere Ablesung; jede wird einmal abgelesen.',
  'form.action_min_above': 'Darf nicht über der Grenze liegen, unter der gewarnt wird.',
  'form.action_max_below': 'Darf nicht unter der Grenze liegen, über der gewarnt wird.',
  'form.limits_empty': 'Zwischen der unteren und der oberen Grenze liegt nichts.',
  'form.after': 'Kommt in einem Stillstand nach',
  'form.after_hint':
    'Erst ablassen, dann reinigen, dann füllen: Wird beides in einem Stillstand gemacht, kommen diese zuerst.',
  'form.add_after': 'Eine Aufgabe hinzufügen, die zuerst kommt',
  'form.choose_after': 'Aufgabe wählen',
  'form.remove_after': '„{title}“ wegnehmen',
  'form.quantity_unit': 'Einheit der nachgefüllten Menge',
  'form.quantity_unit_hint': 'l, ml oder g: Beim Nachfüllen wird die Menge aufgeschrieben',
};
