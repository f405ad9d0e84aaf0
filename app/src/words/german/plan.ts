import type { Wording } from '../catalogue';
import type { plan as english } from '../english/plan';

export const plan: Wording<typeof english> = {
  'plan.change_title': 'Der Plan von {machine}',
  'plan.change_explain':
    'Wo jede Stelle an genau dieser Maschine ist, und in welcher Reihenfolge ein Rundgang an ihnen vorbeiführt. Beides wird mit Ihrem Namen eingetragen.',
  'plan.pad_choose': 'Plan von oben: eine Stelle antippen, um sie zu wählen',
  'plan.pad_move': 'Plan von oben: den neuen Ort von Stelle {number} antippen; Pfeiltasten verschieben sie',
  'plan.which': 'Stelle, die verschoben wird',
  'plan.which_none': 'bitte wählen',
  'plan.how_choose': 'Hier eine Stelle wählen oder sie auf dem Plan antippen.',
  'plan.how_move':
    'Jetzt ihren neuen Ort auf dem Plan antippen. Für kleine Schritte: diese Tasten, oder die Pfeiltasten auf dem Plan (mit Umschalttaste fünf Schritte).',
  'plan.steps': 'Kleine Schritte',
  'plan.step_left': 'ein Schritt nach links',
  'plan.step_right': 'ein Schritt nach rechts',
  'plan.step_back': 'ein Schritt nach hinten',
  'plan.step_front': 'ein Schritt nach vorn',
  'plan.moved': {
    one: 'Verschoben, noch nicht gespeichert: Stelle {numbers}',
    other: '{count} Stellen verschoben, noch nicht gespeichert: {numbers}',
  },
  'plan.save_places': 'Die neuen Orte speichern',
  'plan.put_back': 'Alle zurückstellen',
  'plan.order': 'Reihenfolge des Rundgangs',
  'plan.order_by_hand': 'Von einem Menschen gewählt. Die gestrichelte Linie auf dem Plan zeigt den Weg.',
  'plan.order_computed': 'Aus den Orten der Stellen berechnet. Die gestrichelte Linie auf dem Plan zeigt den Weg.',
  'plan.earlier': '{title}: früher',
  'plan.later': '{title}: später',
  'plan.save_order': 'Diese Reihenfolge speichern',
  'plan.order_back': 'Wie vorher',
  'plan.compute': 'Reihenfolge neu berechnen',
  'plan.back': 'Zurück zu {machine}',
};
