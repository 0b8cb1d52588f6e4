import '@fontsource/source-sans-3/400.css';
import '@fontsource/source-sans-3/600.css';
import './look.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { forgetStills } from './canvas/still-pictures.ts';
import { readBook } from './state/book-actions.ts';
import { followUnseen } from './state/follow-unseen.ts';
import { followJobs } from './state/jobs.ts';
import { followSettling } from './state/settling.ts';
import { followScreens } from './state/message-life.ts';
import { tellTrouble } from './state/messages.ts';
import { readPlacing } from './state/placing.ts';
import { readPattern } from './state/pattern.ts';
import { readSettings } from './state/settings.ts';
import { followWindUp, readWrites } from './state/winding-up.ts';
import { App } from './views/app.tsx';

const root = document.getElementById('root');
if (root === null) throw new Error('index.html: the element "root" is missing');

// First, so that nothing hears of a key before it.
followWindUp();
readWrites().catch(tellTrouble);
followJobs();
followSettling(forgetStills);
followUnseen();
followScreens();
readSettings().catch(tellTrouble);
readBook().catch(tellTrouble);
readPlacing().catch(tellTrouble);
readPattern().catch(tellTrouble);
// A file dropped beside a drop area must not be opened in place of the program.
for (const type of ['dragover', 'drop'] as const) window.addEventListener(type, (event) => event.preventDefault());
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
