import type { Wording } from '../catalogue';
import type { taskdate as english } from '../english/taskdate';

export const taskdate: Wording<typeof english> = {
  'taskdate.title': 'Wie dieser Termin zustande kam',
  'taskdate.failed': 'Der Rechenweg konnte nicht geladen werden. {detail}',
  'taskdate.when': 'Wann, und wie sicher',
  'taskdate.by_chance': 'Zu',
  'taskdate.task_itself': 'fällig bis Ende',
  'taskdate.read':
    'So zu lesen: Mit 90\u00a0% ist es bis Ende des {date} fällig. Zwischen dem 10-%- und dem 90-%-Tag liegen 80\u00a0%.',
  'taskdate.first_wins':
    'Was zuerst eintritt, entscheidet. Die Zähler einer Maschine steigen miteinander; deshalb ist jeder Tag der Aufgabe ' +
    'der früheste der Tage, die ihre Auslöser mit derselben Wahrscheinlichkeit nennen.',
  'taskdate.trigger': 'Auslöser: {name}',
  'taskdate.calendar': '{every}: nach dem Kalender fällig am {date}. Ein genauer Tag, ohne Unsicherheit.',
  'taskdate.left': 'Zu Beginn des heutigen Tages waren noch {amount} übrig ({counter}).',
  'taskdate.used_today': 'Heute bisher verbraucht: {amount}.',
  'taskdate.used_up': 'Aufgebraucht: Es war vor heute fällig ({counter}).',
  'taskdate.formula':
    'Fällig bis zum Ende eines Tages ist es, wenn von heute bis dahin ({counter}) {left} oder mehr verbraucht sind. ' +
    'Ein Zähler läuft nie rückwärts; deshalb ist die Wahrscheinlichkeit, dass es bis dahin fällig ist, die ' +
    'Wahrscheinlichkeit, dass bis dahin so viel verbraucht ist.',
  'taskdate.formula_short': 'P(fällig bis Ende von Tag t) = P(Nutzung bis t ≥ {left})',
  'taskdate.chance': 'Wahrscheinlichkeit, dass es bis zum Ende des Tages fällig ist',
  'taskdate.chance_short': 'Wahrscheinlichkeit',
  'taskdate.by_day': 'Bis Ende des',
  'taskdate.range_mark': '80 %',
  'taskdate.history': 'Nutzung je Tag bisher ({counter})',
  'taskdate.history_unknown':
    'Gestreift: Tage, von denen nichts bekannt ist. Sie bleiben weg und gelten nicht als null.',
  'taskdate.used': 'Genutzt',
  'taskdate.weekdays': 'Muster der Woche',
  'taskdate.weekdays_mean': '1 ist das Mittel aller sieben Tage.',
  'taskdate.ahead': 'Niveau in der kommenden Zeit',
  'taskdate.over_days': 'Die nächsten',
  'taskdate.next_days': { one: '{count} Tag', other: '{count} Tage' },
  'taskdate.per_day': 'Mittel am Tag',
  'taskdate.spread': 'Unsicher um',
  'taskdate.spread_means':
    'Unsicher um: eine Standardabweichung des Mittels über diese Tage, alle Kalendertage mitgezählt.',
  'taskdate.rests_on': 'Worauf das beruht',
  'taskdate.days_from': 'Tage mit Aufzeichnungen vom {from} bis {to}',
  'taskdate.never_used': 'an allen ohne Nutzung: Nach der Nutzung wird sie nie fällig',
  'taskdate.mean': {
    one: '{amount} am Tag, Mittel aus {count} bekannten Tag',
    other: '{amount} am Tag, Mittel aus {count} bekannten Tagen',
  },
  'taskdate.unknown_days': {
    one: '{count} Tag ist unbekannt und bleibt weg',
    other: '{count} Tage sind unbekannt und bleiben weg',
  },
  'taskdate.memory': {
    one: 'das Niveau wandert; was vor {count} Tag war, zählt noch zu etwa einem Drittel',
    other: 'das Niveau wandert; was vor {count} Tagen war, zählt noch zu etwa einem Drittel',
  },
  'taskdate.no_memory': 'das Niveau wandert nicht: Alle bekannten Tage zählen gleich',
  'taskdate.season': 'an eine jährliche Saison wird zu {share}\u00a0% geglaubt',
  'taskdate.idle': {
    one: 'der letzte Arbeitstag war ohne Nutzung',
    other: 'die letzten {count} Arbeitstage waren ohne Nutzung',
  },
  'taskdate.change': 'angekündigt: ab {from} {factor}-mal so viel Nutzung',
  'taskdate.lent': 'die Vorgeschichte ist kurz; es hilft die Nutzung von {machines}',
  'taskdate.assumes': 'Was angenommen wird',
  'taskdate.assumes_goes_on':
    'Die Maschine wird weiter so genutzt, wie ihre Vorgeschichte sagt, mit demselben Wandern.',
  'taskdate.assumes_closed': 'An Tagen, an denen der Betrieb geschlossen ist, wird sie nicht genutzt.',
  'taskdate.assumes_unknown': 'Unbekannte Tage waren wie die bekannten; sie sind keine Tage ohne Nutzung.',
  'taskdate.assumes_not_done': 'Die Aufgabe wird nicht vorher erledigt; wird sie es, zählt sie von vorn.',
  'taskdate.assumes_announced':
    'Änderungen, von denen jemand weiß, sind angekündigt; was niemand ankündigt, sieht die Vorhersage nicht.',
  'taskdate.to_task': 'Zur Aufgabe',
  'taskdate.to_backtest': 'Wie gut waren frühere Vorhersagen?',

  'machine.backtest': 'Frühere Vorhersagen',
  'backtest.explain':
    'Vorhersagen, wie sie an vergangenen Tagen nach dem damaligen Wissen gemacht worden wären, neben dem, was dann kam.',
  'backtest.loading': 'Die vergangenen Tage werden durchgerechnet …',
  'backtest.summary': {
    one: 'Von der letzten {count} Vorhersage traf {inside} in den 80-%-Bereich',
    other: 'Von den letzten {count} Vorhersagen trafen {inside} in den 80-%-Bereich',
  },
  'backtest.share': '{share}\u00a0%; richtig wären etwa 80\u00a0%. Aus {days} Tagen Vorgeschichte.',
  'backtest.all': 'alle zusammen',
  'backtest.none': 'Noch ist von keiner früheren Vorhersage bekannt, wie sie ausging.',
  'backtest.no_counter': 'Keine Aufgabe dieser Maschine zählt auf einem Zähler.',
  'backtest.failed': 'Die früheren Vorhersagen konnten nicht geladen werden. {detail}',
  'backtest.open': 'Neben einfacheren Vorhersagen',
  'backtest.horizon': 'Tage voraus',
  'backtest.forecasts': 'Vorhersagen',
  'backtest.inside': 'In 80\u00a0%',
  'backtest.width': 'Breite des Bereichs',
  'backtest.loss': 'Verlust, diese Vorhersagen',
  'backtest.loss_of': 'Verlust, {name}',
  'backtest.days': '{count} T.',
  'backtest.best': 'am wenigsten',
  'backtest.loss_means':
    'Verlust (Pinball-Verlust): um wie viele Tage eine Vorhersage daneben lag, zu früh und zu spät gewichtet mit der ' +
    'Wahrscheinlichkeit, die sie nannte, gemittelt über ihre Quantile. Eine scharfe Vorhersage, die eintrifft, verliert wenig; eine breite ' +
    'verliert durch ihre Breite, eine scharfe falsche durch ihren Fehler. Weniger ist besser.',
  'naive.mean of 30 days': 'Mittel der letzten 30 Tage',
  'naive.last week again': 'letzte Woche wiederholt',
  'naive.mean of 365 days': 'Mittel der letzten 365 Tage',
};
