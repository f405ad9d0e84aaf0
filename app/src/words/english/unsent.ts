// What is not sent yet, and a newer build of the app.

export const unsent = {
  'newer.ready': 'A newer version of the app is ready.',
  'newer.take': 'Load it now',

  'unsent.title': 'Not sent yet',
  'unsent.explain':
    'What was entered on this device and is not with the server. It is kept on this device, also when the browser is ' +
    'closed, and sent by itself when the server can be reached.',
  'unsent.nothing': 'Everything that was entered here is with the server.',
  'unsent.badge': { one: '{count} not sent', other: '{count} not sent' },
  'unsent.badge_oldest': 'the oldest for {age}',
  'unsent.badge_refused': 'the server refused something',
  'unsent.waiting': { one: '{count} entry waits', other: '{count} entries wait' },
  'unsent.refused': { one: '{count} entry was refused', other: '{count} entries were refused' },
  'unsent.refused_explain':
    'The server has not taken these, so they are in no logbook. Hand them on as a file, or have them sent again when ' +
    'the reason is gone. They stay here until somebody dismisses them.',
  'unsent.reason': 'The server says: {detail}',
  'unsent.sending': 'They are being sent.',
  'unsent.unreachable': 'The server cannot be reached, or cannot take them now; they are sent when it can.',
  'unsent.not_signed_in': 'Nobody has signed in; they are sent when you have.',
  'unsent.of_others': 'What is left was entered by others; it is sent when they sign in on this device.',
  'unsent.waits_for': 'waits until {name} signs in',
  'unsent.send_now': 'Send now',
  'unsent.again': 'Send again',
  'unsent.export': 'Save as a file',
  'unsent.export_all': 'Save all of this as a file',
  'unsent.dismiss': 'Dismiss…',
  'unsent.dismiss_sure': 'Dismiss it? It is then gone from this device and in no logbook.',
  'unsent.dismiss_yes': 'Yes, dismiss it',
  'unsent.dismiss_no': 'No, keep it',
  'unsent.entered': '{machine}, entered by {by}, {when}',
  'unsent.operation_beginWalk': 'Round begun',
  'unsent.operation_answerChecks': 'Checks answered',
  'unsent.operation_makeFinding': 'Finding',
  'unsent.operation_changeFinding': 'Finding changed',
  'unsent.operation_settleFinding': 'Finding settled',
  'unsent.operation_reopenFinding': 'Finding reopened',
  'unsent.operation_markDone': 'Task done',
  'unsent.operation_closeStop': 'Stop closed',
  'unsent.operation_keepPhoto': 'Photo',
  'unsent.storage_full':
    'Not kept: the storage of this device is full. Nothing was entered. Free some space on it, then press again.',
  'unsent.storage_refused':
    'Not kept: this browser keeps nothing on the device (a private window, for example). Nothing was entered.',
  'unsent.operation_moveStock': 'Stock moved',
} as const;
