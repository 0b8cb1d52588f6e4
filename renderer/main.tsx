import '@fontsource/source-sans-3/400.css';
import '@fontsource/source-sans-3/600.css';
import './theme.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { I18nProvider } from 'react-aria-components';
import { LANGUAGE_TAG } from '../core/model/language.ts';
import { STYLE_COLOURS } from '../core/painting/styles.ts';
import { followMovedNames } from './bench/state/follow-moved-names.ts';
import { forgetProposed } from './bench/state/forget-proposed.ts';
import { readBook } from './book/state/book-actions.ts';
import { rememberSwings } from './book/state/last-swing.ts';
import { stills } from './swing/feed.ts';
import { followNamed } from './swing/follow-named.ts';
import { prepareMeasuring } from './swing/measuring.ts';
import { followUnseen } from './swing/state/follow-unseen.ts';
import { followJobs } from './shell/state/jobs.ts';
import { followSettling } from './swing/state/settling.ts';
import { followScreens } from './shell/state/message-life.ts';
import { tellTrouble } from './shell/state/messages.ts';
import { readPlacing } from './repeat/state/placing.ts';
import { readLibrary } from './lesson-page/state/library.ts';
import { readGoals } from './goals/state/goals.ts';
import { readSettings } from './shell/state/settings.ts';
import { followWindUp, readWrites } from './shell/state/winding-up.ts';
import { followRecordedSwing } from './talk/state/talk.ts';
import { Printed } from './printed.tsx';
import { App } from './shell/app.tsx';

const root = document.getElementById('root');
if (root === null) throw new Error('index.html: the element "root" is missing');

document.documentElement.lang = LANGUAGE_TAG;
for (const look of ['then', 'now'] as const)
  document.documentElement.style.setProperty(`--${look}`, STYLE_COLOURS[look]);
// First, so that nothing hears of a key before it.
followWindUp();
readWrites().catch(tellTrouble);
followJobs();
followSettling((clipId) => {
  stills.forget(clipId);
  forgetProposed(clipId);
});
followUnseen();
followNamed();
followMovedNames();
followScreens();
followRecordedSwing();
rememberSwings();
prepareMeasuring();
readSettings().catch(tellTrouble);
readBook().catch(tellTrouble);
readPlacing().catch(tellTrouble);
readGoals().catch(tellTrouble);
readLibrary().catch(tellTrouble);
// A file dropped beside a drop area must not be opened in place of the program.
for (const type of ['dragover', 'drop'] as const) window.addEventListener(type, (event) => event.preventDefault());
createRoot(root).render(
  <StrictMode>
    {/* What the controls' own library says by itself. */}
    <I18nProvider locale={LANGUAGE_TAG}>
      <App />
    </I18nProvider>
    <Printed />
  </StrictMode>,
);
