// What the server says about the stores, by its codes.

export const stores_said = {
  'said.no-stored-part': 'The stores do not keep {part}.',
  'said.parts-ring': '{parts} stand in for each other in a ring. Leave one of them out.',
  'said.stock-below-nothing':
    'Less than nothing of {part} cannot be there. What is missing shows as a difference when somebody counts.',
  'said.serials-count': 'Each {part} has a serial number: name one for each.',
  'said.more-than-ordered': '{came} of {part} came, and {left} was still to come.',
  'said.no-order': 'There is no such order.',
  'said.order-over': 'The order is over: nothing of it is still to come.',
  'said.part-changed': 'Somebody has changed {part} since you looked. Load the page again and enter it once more.',
  'said.part-there': '{part} is still kept: something of it is there.',
  'said.part-ordered': '{part} is still kept: something of it is on order.',
  'said.part-in-kit': '{part} is still kept: it is in a kit.',
  'said.part-substitute': '{part} is still kept: another part names it as a substitute.',
  'said.parts-all-named': 'To each name in the tasks a part answers already.',
  'said.price-assumed': 'Nobody said what it costs; reckoned with {price}, the middle of the prices that are known.',
  'said.lead-assumed': 'Nobody said how long it takes to come; begun with {days} days.',
  'said.wanted-chance': 'Wanted: no stop lacks a part of its kit, with a chance of {chance} %.',
  'said.needs-assumed': 'Tasks take their parts when they fall due, each cycle anew; needs are independent.',
  'said.needed-for-stops': 'Agreed stops need {quantity} until {until}, the first on {first}.',
  'said.needed-when-due': 'What falls due is expected to need {quantity} until {until}.',
  'said.needed-for-failures': 'Failures are expected to need {quantity} until {until}.',
  'said.delivery-takes':
    'Delivery takes {days} days, with 95 % no more than {days_95}; quoted {quoted}, deliveries seen: {count}.',
  'said.too-late-to-be-sure': 'Even ordered today it is there in time with {chance} % only, not with {wanted} %.',
  'said.order-open': '{quantity} are on order, the oldest for {days} days; by then {chance} % of deliveries are there.',
  'said.joins-an-order': 'It has time until {last}, but joins an order that goes anyway.',
  'said.more-costs-less':
    '{quantity} rather than the {least} that would do: fewer orders save more than holding them costs.',
  'said.minimum-raises': '{quantity} instead of {least}: the least that can be ordered.',
  'said.shelf-life-limits': 'Not more than {quantity}, which are used within their shelf life.',
  'said.may-outlive-shelf': 'All {quantity} are used within their shelf life with {chance} % only.',
} as const;
