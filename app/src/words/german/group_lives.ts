import type { Wording } from '../catalogue';
import type { groupLives as english } from '../english/group_lives';

export const groupLives: Wording<typeof english> = {
  'group_lives.lead':
    'Teile, die mehr als ein Werk gewechselt hat: ob sie überall gleich lange halten und was alle Lebensdauern zusammen sagen.',
  'group_lives.read': 'Bisher gelesen: {read} von {all} Werken.',
  'group_lives.search': 'Teil oder Maschine suchen',
  'group_lives.none': 'Noch von keinem Teil kennen zwei Werke Lebensdauern.',
  'group_lives.none_fits': 'Kein Teil passt zur Auswahl.',
  'group_lives.differ': 'Die Werke unterscheiden sich',
  'group_lives.alike': 'Kein Unterschied, den die Daten zeigen',
  'group_lives.unknown': 'Zu wenig bekannt für einen Vergleich',
  'group_lives.counts': {
    one: '{count} Werk, {lives} Lebensdauern, {failures} ausgefallen',
    other: '{count} Werke, {lives} Lebensdauern, {failures} ausgefallen',
  },
  'group_lives.says_differ': 'Die Werke unterscheiden sich. Zahlen aus allen zusammen würden täuschen.',
  'group_lives.says_who':
    'Die Werke unterscheiden sich: {most} sieht mehr Ausfälle, als wenn alle gleich wären, {least} weniger. Zahlen aus allen zusammen würden täuschen.',
  'group_lives.says_alike':
    'Kein Unterschied, den die Daten zeigen: Was alle Lebensdauern zusammen sagen, gilt, soweit bekannt, für jedes Werk.',
  'group_lives.says_alike_few': {
    one: 'Kein Unterschied, den die Daten zeigen. Bei {count} Ausfall zeigte sich nur ein großer.',
    other: 'Kein Unterschied, den die Daten zeigen. Bei {count} Ausfällen zeigte sich nur ein großer.',
  },
  'group_lives.says_unknown': 'Die bisher bekannten Lebensdauern erlauben keinen Test.',
  'group_lives.other_counter': 'Nicht dabei, weil sie dieses Teil auf einem anderen Zähler zählen: {plants}.',
  'group_lives.curves': 'Wie lange sie in jedem Werk halten',
  'group_lives.curves_read':
    'Anteil, der noch gut ist, nach dem Alter, wie es die Lebensdauern sagen. Kräftige Linie: das Werk; dünne Linie: alle Werke zusammen.',
  'group_lives.curves_most':
    'Gezeigt sind die {count} Werke, deren Ausfälle am weitesten von den erwartbaren abweichen.',
  'group_lives.curves_all': 'Alle {count} Werke zeigen',
  'group_lives.fits': 'Die Werke nebeneinander',
  'group_lives.failed': 'Ausgefallen',
  'group_lives.of': '{failures} von {lives}',
  'group_lives.expected': 'Erwartet',
  'group_lives.interval': 'Intervall jetzt',
  'group_lives.best_own': 'Bestes nach eigenen',
  'group_lives.best_pooled': 'Bestes nach allen',
  'group_lives.together': 'Alle zusammen',
  'group_lives.not_known': 'nicht bekannt',
  'group_lives.every': 'alle {interval}',
  'group_lives.fits_read':
    'Erwartet: Ausfälle, die das Werk gesehen hätte, wenn alle Werke gleich wären. Bereiche: 95 %. Die besten Intervalle kosten am wenigsten, nach den eigenen Kosten des Werks.',
  'group_lives.working': 'Wie das beurteilt wurde',
  'group_lives.log_rank': 'Log-Rank-Test',
  'group_lives.weibull': 'Test der Weibull-Anpassungen',
  'group_lives.by_chi_squared': 'Chi-Quadrat {statistic} bei {degrees}: p {p}',
  'group_lives.by_corrected':
    'Chi-Quadrat {statistic}, für kleine Stichproben durch {correction} geteilt, bei {degrees}: p {p}',
  'group_lives.by_permutation':
    'p {p}, durch neues Verteilen der Lebensdauern auf die Werke, weil manche weniger als 5 Ausfälle erwarten können',
  'group_lives.p_needed': 'Die Werke gelten als verschieden, wenn p eines Tests unter {p} liegt.',
  'group_lives.p_means':
    'p: wie wahrscheinlich Werke, die sich nicht unterscheiden, so verschieden aussehen wie diese.',
  'group_lives.without':
    'Nicht im Test der Anpassungen, weil sie weniger als fünf Ausfälle oder keine Anpassung haben: {plants}.',
  'group_lives.p_tiny': 'unter 0,001',
  'group_lives.rests_same':
    'Ein Teil gilt als dasselbe, wenn es die Aufgabe der Bibliothek mit demselben Schlüssel an Maschinen derselben Art wechselt, auf demselben Zähler gezählt. Hersteller, Modelle, Teilenummern und wie stark die Maschinen arbeiten, werden nicht verglichen: Darin kann der Unterschied liegen.',
  'group_lives.rests_tests':
    'Der Log-Rank-Test sieht, wo die Teile eines Werks in jedem Alter häufiger ausfallen; der Test der Anpassungen auch, wo sie anders verschleißen. Wo sich nichts unterscheidet, spricht einer von ihnen in etwa 5 von 100 Fällen an: Von vielen Teilen sehen einige durch Zufall verschieden aus.',
};
