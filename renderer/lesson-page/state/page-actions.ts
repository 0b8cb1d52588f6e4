import { say } from '../../../core/model/say.ts';
import { MOST_KEY_THOUGHTS, type Drill, type Finding, type LessonPage } from '../../../core/model/lesson-page.ts';
import type { LessonFile, LessonFilesOrder } from '../../../electron/ipc/contract.ts';
import { ask } from '../../api.ts';
import { app, setApp } from '../../shell/state/app-state.ts';
import { runJob } from '../../shell/state/jobs.ts';
import { tellDone, tellTrouble } from '../../shell/state/messages.ts';

import { mayGoOut } from '../../swing/state/consent.ts';
import { keepPage, settleWrites } from '../../swing/state/edit-actions.ts';

/** Shows the lesson page of the open swing over its sheet. */
export function openLessonPage(): void {
  const { route, swing } = app.get();
  if (swing !== null && route.at !== 'lesson page') setApp({ route: { at: 'lesson page', under: route } });
}

function change(part: Partial<LessonPage>, heldOn: string | null = null): void {
  const page = app.get().swing?.page;
  if (page !== undefined) keepPage({ ...page, ...part }, heldOn);
}

/** The findings of the page as they are now. */
const findings = (): readonly Finding[] => app.get().swing?.page.findings ?? [];

export function addFinding({ reading, words }: Finding): void {
  const { id, aspect, view, checkpoint } = reading;
  change({ findings: [...findings(), { reading: { id, aspect, view, checkpoint }, words }] });
}

export function removeFinding(index: number): void {
  change({ findings: findings().filter((_, place) => place !== index) });
}

/** Typing on is one edit. */
export function setFindingWords(index: number, words: string): void {
  const changed = findings().map((finding, place) => (place === index ? { ...finding, words } : finding));
  change({ findings: changed }, say`finding ${String(index)}`);
}

/** Makes a finding more (-1) or less (1) important by one place. */
export function moveFinding(index: number, by: -1 | 1): void {
  const all = [...findings()];
  const [moved] = all.splice(index, 1);
  if (moved === undefined || index + by < 0 || index + by > all.length) return;
  all.splice(index + by, 0, moved);
  change({ findings: all });
}

/** Empty ones at the end are none; one between others is kept while it is being written. */
export function setKeyThought(index: number, words: string): void {
  const before = app.get().swing?.page.keyThoughts ?? [];
  const all = Array.from({ length: MOST_KEY_THOUGHTS }, (_, place) =>
    place === index ? words : (before[place] ?? ''),
  );
  while (all.at(-1) === '') all.pop();
  change({ keyThoughts: all }, say`key thought ${String(index)}`);
}

export function setFilmNext(part: Partial<LessonPage['filmNext']>): void {
  const page = app.get().swing?.page;
  if (page !== undefined) change({ filmNext: { ...page.filmNext, ...part } }, say`film ${Object.keys(part).join()}`);
}

/** Puts a copy of a drill on the page; the same one again takes the place of its copy. */
export function putDrill(drill: Drill): void {
  const drills = app.get().swing?.page.drills ?? [];
  const isThere = drills.some(({ id }) => id === drill.id);
  change({ drills: isThere ? drills.map((each) => (each.id === drill.id ? drill : each)) : [...drills, drill] });
}

export function removeDrill(id: string): void {
  change({ drills: (app.get().swing?.page.drills ?? []).filter((each) => each.id !== id) });
}

const SAVING: Readonly<Record<LessonFile, string>> = {
  mail: say`Making the mail draft`,
  pdf: say`Making the PDF`,
  all: say`Making all of the lesson`,
  csv: say`Writing the numbers`,
  json: say`Writing the numbers`,
};

/** The open lesson and what it is compared with, once all of it is in the book; null where nothing may go out. */
export async function orderOfLesson() {
  if (!(await mayGoOut())) return null;
  await settleWrites();
  const { swing, then } = app.get();
  return swing === null ? null : { swingId: swing.swing.id, thenSwingId: then?.swing.id ?? null };
}

/** Makes what goes out, where the coach says, and offers to open it. Nothing is sent. */
export async function saveLesson(as: LessonFile, paper: LessonFilesOrder['paper']): Promise<void> {
  const lesson = await orderOfLesson();
  if (lesson === null) return;
  const order = { ...lesson, as, paper };
  const saved = await runJob(SAVING[as], (jobId) => ask('lesson/save', { ...order, jobId }));
  if (saved === null) return;
  const { path, folder, notes } = saved;
  const isFolder = as === 'all';
  tellDone(
    [(isFolder ? say`Saved the lesson in ${path}.` : say`Saved  ${path}.`).replace('  ', ' '), ...notes].join(' '),
    {
      label: isFolder ? say`Show folder` : as === 'mail' ? say`Open in the mail program` : say`Open it`,
      run: () => {
        (isFolder ? ask('stills/show-folder', { folder }) : ask('lesson/open', { path })).catch(tellTrouble);
      },
    },
  );
}
