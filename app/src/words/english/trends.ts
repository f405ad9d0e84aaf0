// Readings over time: where they go, when they meet a limit, and what is used up an hour.

export const trends = {
  'machine.readings': 'Readings',
  'trend.explain': 'What was read on rounds and in stops: its trend, and when it meets its next limit.',
  'trend.none_here': 'No task of this machine asks for a reading.',
  'trend.failed': 'The readings could not be loaded. {detail}',
  'trend.not_read': 'not read yet',
  'trend.read_when': '{when}, {by}',
  'trend.rising': 'rises by {slope} a week',
  'trend.falling': 'falls by {slope} a week',
  'trend.none seen': 'no trend',
  'trend.refused': 'no trend yet: {why}',
  'trend.crosses': 'will cross {limit} about {median}, with 80\u00a0% between {first} and {last}',
  'trend.crosses_open': 'will cross {limit} about {median}, hardly before {first}; it may take longer than ten years',
  'trend.crosses_hardly': 'hardly crosses {limit} within ten years',
  'trend.crosses_on': 'lies on its limit of {limit}',
  'trend.crosses_now': 'may have crossed {limit} since it was last read',
  'trend.no_limit_ahead': 'leads to no limit',
  'trend.no_limits': 'nobody has set limits',
  'trend.open': 'Open: {what}',

  'trend.title': 'How this reading goes',
  'trend.of_task': 'Read when this is done: {title}.',
  'trend.chart': 'Values and limits',
  'trend.chart_words':
    'Each day on which it was read, with the median of its values. Dashed: the limits. Band: what is ordinary for this ' +
    'reading (three sigma about its mean). Ringed: out of the ordinary. Long line: the trend, drawn on to the limit.',
  'trend.chart_summary':
    '{what}: {count} days from {from} to {to}, lowest {low}, highest {high}, last {last}. {trend}. {crossing}',
  'trend.warning': 'warn {at}',
  'trend.action': 'act {at}',
  'trend.values': 'All values',
  'trend.when': 'When',
  'trend.value': 'Value',
  'trend.judged': 'Judged',
  'trend.by': 'By',
  'trend.in_stop': 'in a stop',
  'trend.ordinary': 'Out of the ordinary',
  'trend.ordinary_none': 'No day is out of the ordinary.',
  'trend.days_out': { one: '{count} day', other: '{count} days' },
  'trend.ordinary_range':
    'Ordinary are values from {lower} to {upper}: the mean of {mean} and three sigma of {sigma} either way. Sigma is the ' +
    'mean step from day to day, {range}, divided by 1.128.',
  'trend.rule_one beyond 3': 'beyond three sigma',
  'trend.rule_two of 3 beyond 2': 'two of three days beyond two sigma',
  'trend.rule_four of 5 beyond 1': 'four of five days beyond one sigma',
  'trend.rule_eight on a side': 'eight days on one side of the mean',
  'trend.rules_source':
    'Single values and moving ranges, with the four rules of the Statistical Quality Control Handbook (1956), as in ' +
    'NIST/SEMATECH e-Handbook 6.3.2. In ordinary times one of these rules calls about every 92 days: a call is a reason ' +
    'to look, not a fault.',
  'trend.is_there': 'Is there a trend?',
  'trend.slope':
    'The middle of the slopes between all pairs of days (Theil and Sen) is {slope} a week; with 95\u00a0% it lies between ' +
    '{low} and {high}. One wild value does not move it.',
  'trend.kendall_exact':
    'Mann-Kendall: S = {s}, so chance alone would give a trend as clear with a p of {p} (two-sided, counted exactly). A trend ' +
    'is called one up to 0.05.',
  'trend.kendall_normal':
    'Mann-Kendall: S = {s}, so chance alone would give a trend as clear with a p of {p} (two-sided, by the normal ' +
    'approximation). A trend is called one up to 0.05.',
  'trend.p_below': 'less than {p}',
  'trend.meets': 'When it meets its limits',
  'trend.meets_limit': 'Limit',
  'trend.meets_at': 'by {chance}\u00a0%',
  'trend.meets_below': '{kind} below {at}',
  'trend.meets_above': '{kind} above {at}',
  'trend.kind_warning': 'Warning',
  'trend.kind_action': 'Action',
  'trend.beyond': 'beyond it already',
  'trend.passage':
    'The value is taken to drift by {drift} a week and to scatter by {scatter} in a week. From its last value on, such a ' +
    'value first reaches the limit with an inverse Gaussian distribution (Chhikara and Folks 1989), averaged over what so ' +
    'few values leave open of drift and scatter.',
  'trend.assumes': 'What it assumes',
  'trend.assumes_days': 'Days are independent. Values that wander from day to day make a trend look surer than it is.',
  'trend.assumes_goes_on': 'It goes on as in the days shown; nobody repairs, cleans or adjusts anything before.',
  'trend.assumes_forty': 'At most the latest 40 days on which it was read count.',
  'trend.assumes_gauge': 'The gauge is right. Its own noise counts as scatter: dates become wider, not surer.',
  'trend.make_finding': 'Make a finding of it',
  'trend.finding_crossing': '{what}: {trend}; {crossing}',

  'use.title': 'What is topped up',
  'use.explain':
    'Amounts filled in over the hours that use them up; so weeks with much and with little work can be compared.',
  'use.per_100': '{amount} in 100 hours ({counter})',
  'use.last': 'the last time {times} times as much as usual',
  'use.none seen': 'no trend',
  'use.fills': { one: '{count} fill', other: '{count} fills' },
  'use.refused': 'no rate yet: {why}',
  'use.filled': 'Filled in',
  'use.hours': 'Counter then',
  'use.per_100_head': 'In 100 h',
  'use.means_way oil_less':
    'Less way oil than before: look for a clogged filter or metering valve, a weak pump or a lubricator that is set ' +
    'lower. Ways that run dry wear.',
  'use.means_way oil_more':
    'More way oil than before: look for a broken or loose line, a metering valve that stays open or a lubricator that is ' +
    'set higher. It ends in the coolant.',
  'use.means_hydraulic oil_less': 'Less hydraulic oil than before: a leak was mended, or the level was read otherwise.',
  'use.means_hydraulic oil_more':
    'More hydraulic oil than before: it leaks. Look at clamping cylinders, hoses and the rotary joint.',
  'use.means_coolant_less': 'Less coolant than before: less is dragged out, or foreign oil or chips fill the tank.',
  'use.means_coolant_more': 'More coolant than before: drag-out on chips, mist, evaporation or a leak.',
  'use.means_spindle oil_less':
    'Less spindle oil than before: look at the oil-air unit’s pump, filter and lines at once.',
  'use.means_spindle oil_more':
    'More spindle oil than before: look for a leak at the unit or a dose that was set higher.',
  'use.means_other_less': 'Less than before: what fed it may be blocked.',
  'use.means_other_more': 'More than before: it may leak.',
  'use.source':
    'Amount over the counter’s hours since the fill before; the trend over the fills is that of Mann-Kendall, told up to a ' +
    'one-sided p of 0.05. It takes each fill to go up to the same mark. What less and more mean is common practice.',

  'bar.reading_now': '{value} read',
  'bar.reading_beyond': '{value}, beyond its limit',
  'bar.reading_none': 'not read since',
  'bar.by_reading_warning': '{reading}: warning limit {at}',
  'bar.by_reading_action': '{reading}: action limit {at}',
  'working.reading_last': 'Last value',
  'working.reading_source': 'read on {date}; only values since the task was last done count',
  'working.reading_none': 'not read since the task was last done',
  'working.reading_limit_warning': 'Warning limit',
  'working.reading_limit_action': 'Action limit',
  'working.reading_limit_source': 'of the reading, as it is set now; the nearest one where there are two',
  'working.thresholds_reading': 'due once a value is beyond; coming when that is met with 10 % within {heads_up}',
  'form.by_reading': 'Reading: {reading} ({title})',
  'form.by_limit': 'Due beyond its',
  'form.limit_warning': 'warning limit',
  'form.limit_action': 'action limit',
  'taskdate.reading':
    'Due once {reading} is beyond {at}. Read since the task was last done: {last}. When such values meet the limit is ' +
    'the first passage of a value that drifts and scatters; it is independent of the counters, so that chances multiply.',
  'taskdate.reading_days': { one: '{count} day with values', other: '{count} days with values' },

  'today.group_reading': 'Readings that drift',
  'today.reading': '{machine}, {what}: {when}',
} as const;
