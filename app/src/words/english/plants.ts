// The group's own site: its plants, and what falls due in them.

export const plants = {
  'plants.search': 'Find a plant or machine',
  'plants.search_plant': 'Find a plant',
  'plants.only_attention': 'Only what needs attention',
  'plants.shown': {
    one: '{count} plant of {all} shown, with {machines} machines',
    other: '{count} plants of {all} shown, with {machines} machines',
  },
  'plants.failed': 'The plants could not be loaded. {detail}',
  'plants.no_plants': 'There is no plant in this database yet. On the server’s computer: hourwright found --plant KEY',
  'plants.none_fits': 'No plant fits what you chose.',
  'plants.show_all': 'Show all plants',
  'plants.plant': 'Plant',
  'plants.machines': 'Machines',
  'plants.feeds': 'Feeds',
  'plants.next_stop': 'Next stop',
  'plants.running': { one: '{count} of {all} runs', other: '{count} of {all} run' },
  'plants.none': 'none',
  'plants.none_lost': 'none lost',
  'plants.not_held': 'no server holds this plant now',
  'plants.old': 'this is {age} old',
  'plants.never_told': 'nothing was told of it yet',
  'plants.to_plant': 'Open {plant}',
  'plants.attention': {
    one: '{count} machine of {all} needs attention',
    other: '{count} machines of {all} need attention',
  },
  'plants.weeks_hint':
    'How many tasks most likely fall due in each week, and their hours of work; in the first also what is due already. The stronger the colour, the more hours. A number leads to the tasks on the plant’s own Horizon.',
  'plants.weeks_caption': 'Tasks and hours of work that fall due in each week, by plant',
  'plants.all_plants': { one: '{count} plant', other: 'All {count} plants' },
  'visits.hint':
    'Agreed stops with work of the outside service, gathered by plant, day and shift: whoever comes does all of it in one visit. Hours are of its people, all together.',
  'visits.none': 'No agreed stop of any plant needs the outside service.',
  'visits.failed': 'The visits could not be loaded. {detail}',
  'visits.untold': 'Nothing is known yet of the visits to {plants}.',
  'visits.hours': '{work} of work',
  'visits.way': '{way} on the way, {cost}',
  'visits.people': { one: '{count} person', other: '{count} people' },
  'visits.clash': '{plants} at the same time: {people}, or one of the visits on another day',
} as const;
