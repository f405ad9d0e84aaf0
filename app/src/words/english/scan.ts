export const scan = {
  'scan.title': 'Scan a label',
  'scan.explain': 'The label on a machine leads to its page, the label of a shelf to the count of its part.',
  'scan.camera': 'By the camera',
  'scan.open': 'Open the camera',
  'scan.opening': 'Opening the camera…',
  'scan.close': 'Close the camera',
  'scan.picture': 'What the camera sees',
  'scan.hold': 'Hold the camera so that the whole code is in the picture.',
  'scan.foreign': 'This code is none of this shop’s machines or parts: {text}',
  'scan.no_secure_context':
    'The browser gives a page the camera only over HTTPS, and this page came without it. The phone’s own camera opens the labels all the same; or write the code below.',
  'scan.not_allowed':
    'The camera was not allowed. Allow it for this page in the browser’s settings, then try again; or write the code below.',
  'scan.in_use': 'The camera is in use by another program. Close that, then try again; or write the code below.',
  'scan.no_camera': 'This device has no camera that the browser can open. Write the code below.',
  'scan.no_reader':
    'The part of the program that reads codes could not be loaded. Try again when the server can be reached; or write the code below.',
  'scan.code': 'The code in words',
  'scan.code_hint':
    'As it stands on the label below the code: the address, the machine’s key (m01) or name, the part’s number.',
  'scan.go': 'To the machine or part',
  'scan.no_machine': 'No machine and no part of this shop is “{text}”.',
  'scan.scanner':
    'A scanner that types needs no page of its own: it works on every page, as long as no text is being written.',
} as const;
