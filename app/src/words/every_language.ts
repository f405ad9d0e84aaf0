// For tests: every language is learned before they begin, so that they can speak any of them at once.

import { LANGUAGES, learnAll } from './catalogue';

await Promise.all(LANGUAGES.map(learnAll));
