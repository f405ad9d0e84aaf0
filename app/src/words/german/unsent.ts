import type { Wording } from '../catalogue';
import type { unsent as english } from '../english/unsent';

export const unsent: Wording<typeof english> = {
  'newer.ready': 'Eine neuere Version der App ist bereit.',
  'newer.take': 'Jetzt laden',

  'unsent.title': 'Noch nicht gesendet',
  'unsent.explain':
    'Was auf diesem Gerät eingetragen wurde und noch nicht beim Server ist. Es liegt auf diesem Gerät, auch wenn der ' +
    'Browser geschlossen wird, und wird von selbst gesendet, sobald der Server erreichbar ist.',
  'unsent.nothing': 'Alles, was hier eingetragen wurde, ist beim Server.',
  'unsent.badge': { one: '{count} nicht gesendet', other: '{count} nicht gesendet' },
  'unsent.badge_oldest': 'ältester seit {age}',
  'unsent.badge_refused': 'der Server hat etwas abgelehnt',
  'unsent.waiting': { one: '{count} Eintrag wartet', other: '{count} Einträge warten' },
  'unsent.refused': { one: '{count} Eintrag wurde abgelehnt', other: '{count} Einträge wurden abgelehnt' },
  'unsent.refused_explain':
    'Diese hat der Server nicht angenommen; sie stehen in keinem Logbuch. Als Datei weitergeben oder noch einmal senden, ' +
    'wenn der Grund behoben ist. Sie bleiben hier, bis jemand sie verwirft.',
  'unsent.reason': 'Der Server sagt: {detail}',
  'unsent.sending': 'Sie werden gesendet.',
  'unsent.unreachable':
    'Der Server ist nicht erreichbar oder kann sie gerade nicht annehmen; sie werden gesendet, sobald er es kann.',
  'unsent.not_signed_in': 'Niemand ist angemeldet; sie werden gesendet, wenn Sie es sind.',
  'unsent.of_others':
    'Was noch da ist, haben andere eingetragen; es wird gesendet, wenn sie sich an diesem Gerät anmelden.',
  'unsent.waits_for': 'wartet, bis {name} sich anmeldet',
  'unsent.send_now': 'Jetzt senden',
  'unsent.again': 'Noch einmal senden',
  'unsent.export': 'Als Datei speichern',
  'unsent.export_all': 'Alles hier als Datei speichern',
  'unsent.dismiss': 'Verwerfen …',
  'unsent.dismiss_sure': 'Verwerfen? Der Eintrag ist dann von diesem Gerät verschwunden und steht in keinem Logbuch.',
  'unsent.dismiss_yes': 'Ja, verwerfen',
  'unsent.dismiss_no': 'Nein, behalten',
  'unsent.entered': '{machine}, eingetragen von {by}, {when}',
  'unsent.operation_beginWalk': 'Rundgang begonnen',
  'unsent.operation_answerChecks': 'Prüfpunkte beantwortet',
  'unsent.operation_makeFinding': 'Befund',
  'unsent.operation_changeFinding': 'Befund geändert',
  'unsent.operation_settleFinding': 'Befund erledigt',
  'unsent.operation_reopenFinding': 'Befund wieder offen',
  'unsent.operation_markDone': 'Aufgabe erledigt',
  'unsent.operation_closeStop': 'Stillstand abgeschlossen',
  'unsent.operation_keepPhoto': 'Foto',
  'unsent.storage_full':
    'Nicht behalten: Der Speicher dieses Geräts ist voll. Es wurde nichts eingetragen. Platz schaffen, dann noch einmal ' +
    'drücken.',
  'unsent.storage_refused':
    'Nicht behalten: Dieser Browser speichert nichts auf dem Gerät (zum Beispiel im privaten Fenster). Es wurde nichts ' +
    'eingetragen.',
  'unsent.operation_moveStock': 'Lager bewegt',
};
