import type { Wording } from '../catalogue';
import type { labels as english } from '../english/labels';

export const labels: Wording<typeof english> = {
  'labels.explain':
    'Ein Code für jede Maschine, der ihre Seite öffnet: mit der Kamera eines Telefons, mit der Kamera dieses Programms oder mit einem Scanner, der tippt.',
  'labels.address': 'Adresse auf den Etiketten',
  'labels.base': 'Dieser Server, wie Telefone ihn erreichen',
  'labels.base_hint':
    'Zum Beispiel http://shop.example:8470. Sie klebt danach an jeder Maschine: die Adresse nehmen, die bleibt.',
  'labels.base_empty': 'Hier die Adresse des Servers eintragen.',
  'labels.base_wrong': 'Das ist keine Adresse eines Servers. Richtig ist zum Beispiel http://shop.example:8470.',
  'labels.base_more': 'Nur der Server, ohne etwas dahinter: http://shop.example:8470.',
  'labels.own_computer':
    'Mit dieser Adresse öffnet ein Telefon eine Seite bei sich selbst, nicht auf diesem Rechner. Gut für einen Versuch, nicht für die Maschinen.',
  'labels.machines': 'Maschinen',
  'labels.all': 'Alle',
  'labels.none': 'Keine',
  'labels.chosen': { one: '{count} Maschine von {all} gewählt', other: '{count} Maschinen von {all} gewählt' },
  'labels.no_machine': 'Mindestens eine Maschine wählen.',
  'labels.sheet': 'Bogen',
  'labels.layout': 'Gedruckt auf',
  'labels.layout_sheet': 'Etikettenbogen',
  'labels.layout_single': 'Etikettendrucker, eines je Seite',
  'labels.page_width_mm': 'Seite, Breite',
  'labels.page_height_mm': 'Seite, Höhe',
  'labels.margin_left_mm': 'Linker Seitenrand bis zum ersten Etikett',
  'labels.margin_top_mm': 'Oberer Seitenrand bis zum ersten Etikett',
  'labels.label_width_mm': 'Etikett, Breite',
  'labels.label_height_mm': 'Etikett, Höhe',
  'labels.pitch_x_mm': 'Vom linken Rand eines Etiketts bis zu dem des nächsten',
  'labels.pitch_y_mm': 'Vom oberen Rand eines Etiketts bis zu dem des nächsten',
  'labels.columns': 'Etiketten nebeneinander',
  'labels.rows': 'Etiketten untereinander',
  'labels.first_label': 'Erstes freies Etikett des Bogens',
  'labels.roll_width_mm': 'Etikett, Breite',
  'labels.roll_height_mm': 'Etikett, Höhe',
  'labels.reset': 'Die Zahlen wie zu Anfang',
  'labels.at_least': 'Muss mindestens {min} sein.',
  'labels.overlap': 'Die Etiketten lägen übereinander: Sie messen {label} mm. Muss mindestens so viel sein.',
  'labels.too_many': 'Sie brauchen {needed} mm, und die Seite hat {page} mm. Richtig sind weniger oder kleinere.',
  'labels.preview': {
    one: '{count} Etikett auf {width} × {height}',
    other: '{count} Etiketten auf {width} × {height}',
  },
  'labels.no_preview': 'Diese Zahlen passen nicht zusammen. Was nicht stimmt, steht daneben.',
  'labels.sheets': { one: '{labels} Etiketten auf {count} Bogen', other: '{labels} Etiketten auf {count} Bögen' },
  'labels.pages': { one: '{count} Etikett, eines je Seite', other: '{count} Etiketten, eines je Seite' },
  'labels.refused': 'Der Server sagt: {detail}',
  'labels.open': 'Etiketten als PDF öffnen',
  'labels.not_yet': 'So noch nicht druckbar: zeigen, warum',
  'labels.print_hint':
    'In Originalgröße drucken, nicht an die Seite angepasst; zuerst auf einfaches Papier und an den Bogen halten. Keine Sicherheitszeichen, Typenschilder oder Fenster überkleben.',
};
