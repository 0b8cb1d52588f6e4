import { join } from 'node:path';
import { app } from 'electron';
import { chooseLanguage } from './choose-language.ts';
import { choosePlaces } from './places.ts';

/** Settles the language, and only then loads the program: lists of words are made when their modules are loaded. */
const { userData } = choosePlaces(process.env, () => app.getPath('documents'));
if (userData !== null) app.setPath('userData', userData);
// Threads and processes that are started from here inherit it.
process.env['BAYBOOK_LANGUAGE'] = chooseLanguage(process.env, join(app.getPath('userData'), 'settings.json'), () =>
  app.getPreferredSystemLanguages(),
);
await import('./program.ts');
