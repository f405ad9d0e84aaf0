import type { Wording } from '../catalogue';
import type { trends as english } from '../english/trends';

export const trends: Wording<typeof english> = {
  'machine.readings': 'Messwerte',
  'trend.explain':
    'Was auf Rundgängen und in Stillständen abgelesen wurde: wohin es geht und wann es seine nächste Grenze erreicht.',
  'trend.none_here': 'Keine Aufgabe dieser Maschine verlangt einen Messwert.',
  'trend.failed': 'Die Messwerte konnten nicht geladen werden. {detail}',
  'trend.not_read': 'noch nicht abgelesen',
  'trend.read_when': '{when}, {by}',
  'trend.rising': 'steigt um {slope} in der Woche',
  'trend.falling': 'fällt um {slope} in der Woche',
  'trend.none seen': 'ohne Richtung',
  'trend.refused': 'noch ohne Richtung: {why}',
  'trend.crosses': 'wird {limit} etwa am {median} überschreiten, mit 80\u00a0% zwischen {first} und {last}',
  'trend.crosses_open':
    'wird {limit} etwa am {median} überschreiten, kaum vor dem {first}; es kann länger als zehn Jahre dauern',
  'trend.crosses_hardly': 'überschreitet {limit} kaum in den nächsten zehn Jahren',
  'trend.crosses_on': 'liegt auf der Grenze von {limit}',
  'trend.crosses_now': 'kann {limit} seit dem letzten Ablesen überschritten haben',
  'trend.no_limit_ahead': 'führt zu keiner Grenze',
  'trend.no_limits': 'niemand hat Grenzen gesetzt',
  'trend.open': 'Öffnen: {what}',

  'trend.title': 'Wie sich dieser Messwert entwickelt',
  'trend.of_task': 'Abgelesen bei: {title}.',
  'trend.chart': 'Werte und Grenzen',
  'trend.chart_words':
    'Jeder Tag, an dem abgelesen wurde, mit dem mittleren seiner Werte. Gestrichelt: die Grenzen. Band: was für diesen ' +
    'Messwert gewöhnlich ist (drei Sigma um sein Mittel). Mit Ring: außergewöhnlich. Lange Linie: die Richtung, bis zur Grenze verlängert.',
  'trend.chart_summary':
    '{what}: {count} Tage vom {from} bis {to}, niedrigster {low}, höchster {high}, letzter {last}. {trend}. {crossing}',
  'trend.warning': 'Warnung {at}',
  'trend.action': 'Eingriff {at}',
  'trend.values': 'Alle Werte',
  'trend.when': 'Wann',
  'trend.value': 'Wert',
  'trend.judged': 'Beurteilt',
  'trend.by': 'Von',
  'trend.in_stop': 'in einem Stillstand',
  'trend.ordinary': 'Außergewöhnliches',
  'trend.ordinary_none': 'Kein Tag ist außergewöhnlich.',
  'trend.days_out': { one: '{count} Tag', other: '{count} Tage' },
  'trend.ordinary_range':
    'Gewöhnlich sind Werte von {lower} bis {upper}: das Mittel von {mean} und drei Sigma von {sigma} nach beiden Seiten. ' +
    'Sigma ist der mittlere Schritt von Tag zu Tag, {range}, geteilt durch 1,128.',
  'trend.rule_one beyond 3': 'außerhalb von drei Sigma',
  'trend.rule_two of 3 beyond 2': 'zwei von drei Tagen außerhalb von zwei Sigma',
  'trend.rule_four of 5 beyond 1': 'vier von fünf Tagen außerhalb von einem Sigma',
  'trend.rule_eight on a side': 'acht Tage auf einer Seite des Mittels',
  'trend.rules_source':
    'Einzelwerte und gleitende Spannweiten, mit den vier Regeln des Statistical Quality Control Handbook (1956), wie im ' +
    'NIST/SEMATECH e-Handbook 6.3.2. In gewöhnlichen Zeiten meldet sich eine davon etwa alle 92 Tage: ein Grund ' +
    'hinzusehen, kein Fehler.',
  'trend.is_there': 'Hat es eine Richtung?',
  'trend.slope':
    'Die mittlere der Steigungen zwischen allen Tagespaaren (Theil und Sen) ist {slope} in der Woche; mit 95\u00a0% liegt ' +
    'sie zwischen {low} und {high}. Ein Ausreißer bewegt sie nicht.',
  'trend.kendall_exact':
    'Mann-Kendall: S = {s}; eine so klare Richtung ergäbe der Zufall allein mit einem p von {p} (zweiseitig, genau gezählt). Bis ' +
    '0,05 heißt sie Richtung.',
  'trend.kendall_normal':
    'Mann-Kendall: S = {s}; eine so klare Richtung ergäbe der Zufall allein mit einem p von {p} (zweiseitig, genähert durch die ' +
    'Normalverteilung). Bis 0,05 heißt sie Richtung.',
  'trend.p_below': 'weniger als {p}',
  'trend.meets': 'Wann es seine Grenzen erreicht',
  'trend.meets_limit': 'Grenze',
  'trend.meets_at': 'mit {chance}\u00a0% bis',
  'trend.meets_below': '{kind} unter {at}',
  'trend.meets_above': '{kind} über {at}',
  'trend.kind_warning': 'Warnung',
  'trend.kind_action': 'Eingriff',
  'trend.beyond': 'schon überschritten',
  'trend.passage':
    'Angenommen ist, dass der Wert in der Woche um {drift} wandert und um {scatter} streut. Vom letzten Wert an erreicht ' +
    'ein solcher Wert die Grenze zum ersten Mal nach einer inversen Gaußverteilung (Chhikara und Folks 1989), gemittelt ' +
    'über das, was so wenige Werte von Wandern und Streuen offenlassen.',
  'trend.assumes': 'Was angenommen ist',
  'trend.assumes_days':
    'Die Tage sind unabhängig. Werte, die sich von Tag zu Tag ziehen, lassen eine Richtung sicherer scheinen, als sie ist.',
  'trend.assumes_goes_on':
    'Es geht weiter wie in den gezeigten Tagen; niemand richtet, reinigt oder stellt vorher etwas.',
  'trend.assumes_forty': 'Höchstens die letzten 40 Tage, an denen abgelesen wurde, zählen.',
  'trend.assumes_gauge':
    'Die Anzeige stimmt. Ihr eigenes Rauschen gilt als Streuung: Termine werden weiter, nicht sicherer.',
  'trend.make_finding': 'Befund daraus machen',
  'trend.finding_crossing': '{what}: {trend}; {crossing}',

  'use.title': 'Was nachgefüllt wird',
  'use.explain':
    'Nachgefüllte Mengen über den Stunden, die sie verbrauchen; so lassen sich Wochen mit viel und mit wenig Arbeit vergleichen.',
  'use.per_100': '{amount} in 100 Stunden ({counter})',
  'use.last': 'zuletzt {times}-mal so viel wie sonst',
  'use.none seen': 'ohne Richtung',
  'use.fills': { one: '{count} Füllung', other: '{count} Füllungen' },
  'use.refused': 'noch kein Verbrauch: {why}',
  'use.filled': 'Eingefüllt',
  'use.hours': 'Zähler dabei',
  'use.per_100_head': 'In 100 h',
  'use.means_way oil_less':
    'Weniger Bahnöl als bisher: einen verstopften Filter oder Dosierer suchen, eine schwache Pumpe oder eine kleiner ' +
    'gestellte Schmierung. Trockene Führungen verschleißen.',
  'use.means_way oil_more':
    'Mehr Bahnöl als bisher: eine gebrochene oder lose Leitung suchen, einen Dosierer, der offen bleibt, oder eine größer ' +
    'gestellte Schmierung. Es endet im Kühlschmierstoff.',
  'use.means_hydraulic oil_less':
    'Weniger Hydrauliköl als bisher: Ein Leck wurde gedichtet, oder der Stand wurde anders abgelesen.',
  'use.means_hydraulic oil_more':
    'Mehr Hydrauliköl als bisher: Es leckt. Spannzylinder, Schläuche und Drehdurchführung ansehen.',
  'use.means_coolant_less':
    'Weniger Kühlschmierstoff als bisher: Es wird weniger ausgetragen, oder Fremdöl oder Späne füllen den Behälter.',
  'use.means_coolant_more': 'Mehr Kühlschmierstoff als bisher: Austrag mit Spänen, Nebel, Verdunstung oder ein Leck.',
  'use.means_spindle oil_less':
    'Weniger Spindelöl als bisher: sofort Pumpe, Filter und Leitungen der Öl-Luft-Schmierung ansehen.',
  'use.means_spindle oil_more': 'Mehr Spindelöl als bisher: ein Leck oder eine größer gestellte Dosis suchen.',
  'use.means_other_less': 'Weniger als bisher: Die Zufuhr kann verstopft sein.',
  'use.means_other_more': 'Mehr als bisher: Es kann lecken.',
  'use.source':
    'Menge über den Stunden des Zählers seit der Füllung davor; die Richtung über die Füllungen ist die von Mann-Kendall, ' +
    'gesagt bis zu einem einseitigen p von 0,05. Angenommen ist, dass immer bis zur selben Marke gefüllt wird. Was ' +
    'weniger und mehr bedeuten, ist übliche Praxis.',

  'bar.reading_now': '{value} abgelesen',
  'bar.reading_beyond': '{value}, jenseits der Grenze',
  'bar.reading_none': 'seither nicht abgelesen',
  'bar.by_reading_warning': '{reading}: Warngrenze {at}',
  'bar.by_reading_action': '{reading}: Eingriffsgrenze {at}',
  'working.reading_last': 'Letzter Wert',
  'working.reading_source': 'abgelesen am {date}; nur Werte, seit die Aufgabe zuletzt erledigt wurde, zählen',
  'working.reading_none': 'nicht abgelesen, seit die Aufgabe zuletzt erledigt wurde',
  'working.reading_limit_warning': 'Warngrenze',
  'working.reading_limit_action': 'Eingriffsgrenze',
  'working.reading_limit_source': 'des Messwerts, wie sie jetzt gesetzt ist; bei zweien die nähere',
  'working.thresholds_reading':
    'fällig, sobald ein Wert jenseits liegt; kommend, wenn das mit 10 % innerhalb von {heads_up} eintritt',
  'form.by_reading': 'Messwert: {reading} ({title})',
  'form.by_limit': 'Fällig jenseits der',
  'form.limit_warning': 'Warngrenze',
  'form.limit_action': 'Eingriffsgrenze',
  'taskdate.reading':
    'Fällig, sobald {reading} jenseits von {at} liegt. Abgelesen, seit die Aufgabe zuletzt erledigt wurde: {last}. Wann ' +
    'solche Werte die Grenze erreichen, ist der erste Durchgang eines Wertes, der wandert und streut; er ist von den ' +
    'Zählern unabhängig, sodass sich Wahrscheinlichkeiten multiplizieren.',
  'taskdate.reading_days': { one: '{count} Tag mit Werten', other: '{count} Tage mit Werten' },

  'today.group_reading': 'Messwerte, die wandern',
  'today.reading': '{machine}, {what}: {when}',
};
