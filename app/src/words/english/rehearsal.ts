// Years played under another interval.

export const rehearsal = {
  'what_if.title': 'What a year would come to',
  'what_if.explain':
    'Plays the coming year of the whole shop many times, under the present interval and under another, each year of both with the same luck.',
  'what_if.interval': 'Interval to try',
  'what_if.now': 'now {amount}',
  'what_if.play': 'Play the years',
  'what_if.playing': 'Playing…',
  'what_if.not_now': 'It has no such interval now, so there is nothing to compare with.',
  'what_if.failed': 'It could not be played. {detail}',
  'what_if.same': 'It costs the same in every year.',
  'what_if.less': '{how} it costs less; {saving} a year on average.',
  'what_if.more': '{how} it costs less; {saving} a year more on average.',
  'what_if.unsure': '{how} it costs less; on average there is no difference that these years could show.',
  'what_if.nearly_all': 'In nearly every year',
  'what_if.hardly_any': 'In hardly any year',
  'what_if.of_ten': { one: 'In {count} of 10 years', other: 'In {count} of 10 years' },
  'what_if.table': 'A year of the shop',
  'what_if.present': 'Now',
  'what_if.changed': 'Then',
  'what_if.difference': 'Difference',
  'what_if.range': '{from} to {to}',
  'what_if.failures': 'Failures',
  'what_if.stops': 'Planned stops',
  'what_if.hands_on_hours': 'Hands-on hours',
  'what_if.standing_hours': 'Machines stand, hours',
  'what_if.cost': 'Cost',
  'what_if.rests': {
    one: '{count} year played with {tasks} tasks, of which {parts} replace a part whose lives are known; all others are only work.',
    other:
      '{count} years played with {tasks} tasks, of which {parts} replace a part whose lives are known; all others are only work.',
  },
  'what_if.range_means':
    'Means; below them, between which values 90 of 100 years lie. What is not known of a part’s life is in that range.',
  'what_if.differs':
    'It can say another thing than the advice above: that takes every replacement at exactly its interval and along in a stop that is there anyway; here it also opens stops of its own, and comes early where one is near.',
  'what_if.without_use': {
    one: '{count} task is left out: nothing is known of how its counter is used.',
    other: '{count} tasks are left out: nothing is known of how their counters are used.',
  },
} as const;
