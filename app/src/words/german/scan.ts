import type { Wording } from '../catalogue';
import type { scan as english } from '../english/scan';

export const scan: Wording<typeof english> = {
  'scan.title': 'Etikett scannen',
  'scan.explain': 'Das Etikett an einer Maschine führt zu ihrer Seite, das am Regal zum Zählen des Teils.',
  'scan.camera': 'Mit der Kamera',
  'scan.open': 'Kamera öffnen',
  'scan.opening': 'Die Kamera wird geöffnet …',
  'scan.close': 'Kamera schließen',
  'scan.picture': 'Was die Kamera sieht',
  'scan.hold': 'Die Kamera so halten, dass der ganze Code im Bild ist.',
  'scan.foreign': 'Dieser Code gehört zu keiner Maschine und keinem Teil hier: {text}',
  'scan.no_secure_context':
    'Der Browser gibt einer Seite die Kamera nur über HTTPS, und diese Seite kam ohne. Die Kamera des Telefons selbst öffnet die Etiketten trotzdem; oder den Code unten eintippen.',
  'scan.not_allowed':
    'Die Kamera wurde nicht erlaubt. In den Einstellungen des Browsers für diese Seite erlauben und noch einmal versuchen; oder den Code unten eintippen.',
  'scan.in_use':
    'Ein anderes Programm benutzt die Kamera. Es schließen und noch einmal versuchen; oder den Code unten eintippen.',
  'scan.no_camera': 'Dieses Gerät hat keine Kamera, die der Browser öffnen kann. Den Code unten eintippen.',
  'scan.no_reader':
    'Der Teil des Programms, der Codes liest, konnte nicht geladen werden. Noch einmal versuchen, wenn der Server erreichbar ist; oder den Code unten eintippen.',
  'scan.code': 'Der Code in Worten',
  'scan.code_hint':
    'Wie er auf dem Etikett unter dem Code steht: die Adresse, Schlüssel (m01) oder Name der Maschine, die Nummer des Teils.',
  'scan.go': 'Zur Maschine oder zum Teil',
  'scan.no_machine': 'Keine Maschine und kein Teil hier heißt „{text}“.',
  'scan.scanner':
    'Ein Scanner, der tippt, braucht keine eigene Seite: Er wirkt auf jeder Seite, solange kein Text geschrieben wird.',
};
