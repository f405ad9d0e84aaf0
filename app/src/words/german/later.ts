import type { Wording } from '../catalogue';
import type { later as english } from '../english/later';
import { access } from './access';
import { finding } from './finding';
import { groupLives } from './group_lives';
import { labels } from './labels';
import { lives } from './lives';
import { logbook } from './logbook';
import { month } from './month';
import { plan } from './plan';
import { planning } from './planning';
import { plants } from './plants';
import { rehearsal } from './rehearsal';
import { scan } from './scan';
import { stop } from './stop';
import { stores } from './stores';
import { today } from './today';

export const later: Wording<typeof english> = {
  ...access,
  ...finding,
  ...groupLives,
  ...labels,
  ...lives,
  ...logbook,
  ...month,
  ...plan,
  ...planning,
  ...plants,
  ...rehearsal,
  ...scan,
  ...stop,
  ...stores,
  ...today,
};
