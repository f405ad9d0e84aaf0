// What the server says about the stores, by its codes.

export const stores_said = {
  'said.no-stored-part': 'The stores do not keep {part}.',
  'said.parts-ring': '{parts} stand in for each other in a ring. Leave one of them out.',
  'said.part-whole': '{part} is counted: {quantity} is no whole number.',
  'said.part-unit': '{part} was moved already, counted in {unit}: its unit stays.',
  'said.stock-below-nothing':
    'Less than nothing of {part} cannot be there. What is missing shows as a difference when somebody counts.',
  'said.serials-count': 'Each {part} has a serial number: name one for each.',
  'said.more-than-ordered': '{came} of {part} came, and {left} was still to come.',
  'said.no-order': 'There is no such order.',
  'said.order-over': 'The order is over: nothing of it is still to come.',
  'said.part-changed': 'Somebody has changed {part} since you looked. Load the page again and enter it once more.',
  'said.stores-changed': 'Somebody changed the stores meanwhile. Send the sheet once more.',
  'said.part-there': '{part} is still kept: something of it is there.',
  'said.part-ordered': '{part} is still kept: something of it is on order.',
  'said.part-in-kit': '{part} is still kept: it is in a kit.',
  'said.part-substitute': '{part} is still kept: another part names it as a substitute.',
  'said.parts-all-named': 'To each name in the tasks a part answers already.',
  'said.price-assumed': 'Nobody said what it costs; reckoned with {price}, the middle of the prices that are known.',
  'said.lead-assumed': {
    one: 'Nobody said how long it takes to come; begun with {days} day.',
    other: 'Nobody said how long it takes to come; begun with {days} days.',
  },
  'said.wanted-chance': 'Wanted: no stop lacks a part of its kit, with a chance of {chance} %.',
  'said.needs-assumed': 'Tasks take their parts when they fall due, each cycle anew; needs are independent.',
  'said.needed-for-stops': 'Agreed stops need {quantity} until {until}, the first on {first}.',
  'said.needed-when-due': 'What falls due is expected to need {quantity} until {until}.',
  'said.needed-for-failures': 'Failures are expected to need {quantity} until {until}.',
  'said.delivery-takes':
    'Lead time in days: {days}, with 95 % no more than {days_95}; quoted {quoted}, deliveries seen: {count}.',
  'said.too-late-to-be-sure': 'Even ordered today it is there in time with {chance} % only, not with {wanted} %.',
  'said.order-open': {
    one: '{quantity} are on order, the oldest for {days} day; by then {chance} % of deliveries are there.',
    other: '{quantity} are on order, the oldest for {days} days; by then {chance} % of deliveries are there.',
  },
  'said.joins-an-order': 'It has time until {last}, but joins an order that goes anyway.',
  'said.more-costs-less':
    '{quantity} rather than the {least} that would do: fewer orders save more than holding them costs.',
  'said.minimum-raises': '{quantity} instead of {least}: the least that can be ordered.',
  'said.shelf-life-limits': 'Not more than {quantity}, which are used within their shelf life.',
  'said.may-outlive-shelf': 'All {quantity} are used within their shelf life with {chance} % only.',
  'said.chase-open-order': {
    one: 'What is on order is enough, but may come too late: {chance} % for the needs of the next {days} day. Ask the supplier.',
    other:
      'What is on order is enough, but may come too late: {chance} % for the needs of the next {days} days. Ask the supplier.',
  },
  'said.sheet-no-key': 'No column was found that holds the numbers of the parts; say which it is.',
  'said.sheet-number-missing': 'The part’s number is missing.',
  'said.sheet-title-missing': 'The part is new and has no title.',
  'said.sheet-twice': '{part} stands in the rows {rows}; right is one row a part.',
  'said.sheet-no-number': '“{text}” is no number; right is for example 12.50.',
  'said.sheet-two-ways':
    '“{text}” can be {less} or {more}, and no other number of the column tells which; write it without a mark between thousands, or with one more 0 behind.',
  'said.sheet-negative': '{value} cannot lie on a shelf; right is 0 or more.',
  'said.sheet-not-whole': '{value} is no whole number ({unit}).',
  'said.sheet-yes-no': '“{text}” is neither yes nor no.',
  'said.sheet-no-supplier':
    'It is the number of a supplier, and the part has none; name the supplier in a column of its own.',
  'said.sheet-mistakes': 'Rows with mistakes: {rows}. Nothing was taken over.',
} as const;
