// Lives of parts over the plants of a group.

export const groupLives = {
  'group_lives.lead':
    'Kinds of parts that more than one plant has replaced: whether they last as long everywhere, and what all lives together say.',
  'group_lives.read': 'Read so far: {read} of {all} plants.',
  'group_lives.search': 'Find a part or machine',
  'group_lives.none': 'No kind of part has lives in two plants yet.',
  'group_lives.none_fits': 'No part fits what you chose.',
  'group_lives.differ': 'The plants differ',
  'group_lives.alike': 'No difference that the data show',
  'group_lives.unknown': 'Too little is known to compare',
  'group_lives.counts': {
    one: '{count} plant, {lives} lives, {failures} failed',
    other: '{count} plants, {lives} lives, {failures} failed',
  },
  'group_lives.says_differ': 'The plants differ. Numbers of all together would mislead.',
  'group_lives.says_who':
    'The plants differ: {most} sees more failures than if all were alike, {least} fewer. Numbers of all together would mislead.',
  'group_lives.says_alike':
    'No difference that the data show: what all lives together say holds for each plant as far as known.',
  'group_lives.says_alike_few': {
    one: 'No difference that the data show. With {count} failure only a great one would.',
    other: 'No difference that the data show. With {count} failures only a great one would.',
  },
  'group_lives.says_unknown': 'The lives known so far allow no test.',
  'group_lives.other_counter': 'Left out, as they count this part on another counter: {plants}.',
  'group_lives.curves': 'How long they last in each plant',
  'group_lives.curves_read':
    'Share still good by age, as the lives say it. Strong line: the plant; thin line: all plants together.',
  'group_lives.curves_most': 'Shown are the {count} plants whose failures lie furthest from what they could expect.',
  'group_lives.curves_all': 'Show all {count} plants',
  'group_lives.fits': 'The plants side by side',
  'group_lives.failed': 'Failed of lives',
  'group_lives.of': '{failures} of {lives}',
  'group_lives.expected': 'Expected',
  'group_lives.interval': 'Interval now',
  'group_lives.best_own': 'Best by own lives',
  'group_lives.best_pooled': 'Best by all lives',
  'group_lives.together': 'All together',
  'group_lives.not_known': 'not known',
  'group_lives.every': 'every {interval}',
  'group_lives.fits_read':
    'Expected: failures that the plant would have seen were all plants alike. Ranges: 95 %. The best intervals are those of least cost, under the plant’s own costs.',
  'group_lives.working': 'How this was judged',
  'group_lives.log_rank': 'Log-rank test',
  'group_lives.weibull': 'Test of Weibull fits',
  'group_lives.by_chi_squared': 'chi-squared {statistic} on {degrees}: p {p}',
  'group_lives.by_corrected': 'chi-squared {statistic}, divided by {correction} for small samples, on {degrees}: p {p}',
  'group_lives.by_permutation':
    'p {p}, by dealing the lives anew to the plants, as some can expect fewer than 5 failures',
  'group_lives.p_needed': 'Plants are said to differ where p of one test is below {p}.',
  'group_lives.p_means': 'p: how likely plants that do not differ look as different as these.',
  'group_lives.without': 'Not in the test of fits, as they have fewer than five failures or no fit: {plants}.',
  'group_lives.p_tiny': 'below 0.001',
  'group_lives.rests_same':
    'A part counts as the same where the library’s task of the same key replaces it on machines of the same kind, counted on the same counter. Builders, models, part numbers and how hard the machines work are not compared: they may be why plants differ.',
  'group_lives.rests_tests':
    'The log-rank test sees where one plant’s parts fail more often at every age; the test of fits also where they wear in another way. Where nothing differs, one of them speaks in about 5 of 100 cases: of many parts some will look different by chance.',
} as const;
