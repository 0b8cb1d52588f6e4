import type { Locator, Page } from 'playwright-core';
import type { View } from '../../../core/model/words.ts';
import { VIEW_LABELS } from '../../../core/model/words.ts';
import { launchBaybook } from '../../e2e/launch.ts';
import type { RunningBaybook } from '../../e2e/launch.ts';
import { answerDialogs, ask } from '../../e2e/page-hands.ts';
import type { BenchClip } from '../bench-clip.ts';
import { LEAST_CONTRAST, cellMiddles } from '../clips/code-strip.ts';
import { installEyes } from '../in-page/install-eyes.ts';
import { installHands } from '../in-page/install-hands.ts';
import { pressUntilPicture } from '../in-page/press-until-picture.ts';
import { waitForQuiet } from './processes.ts';

/** A running Baybook with an empty book of one student, and the bench's eyes and hands in its page. */
export interface Session {
  readonly program: RunningBaybook;
  readonly page: Page;
  /** Of the program's main process. */
  readonly pid: number;
  readonly swings: readonly string[];
}

/** What the eyes must know of a clip. */
export type SeenClip = Pick<BenchClip, 'path' | 'stored' | 'turn'>;

/** The window of a small laptop. */
const SIZE = { width: 1280, height: 800 };
const PAGE_LIMIT = 30_000;
/** A clip that is decoded before it can be opened would be slow, but it would be a figure all the same. */
const FIRST_LIMIT = 120_000;
/** A picture in a dialog that is later than this has not come. */
const LOOKED_LIMIT = 15_000;

export async function openSession(swings: readonly string[]): Promise<Session> {
  const program = await launchBaybook(SIZE);
  const page = program.window;
  page.setDefaultTimeout(PAGE_LIMIT);
  const pid = program.app.process().pid;
  if (pid === undefined) throw new Error('the program has ended');
  const student = { firstName: 'Bench', lastName: 'Test', handedness: 'right' } as const;
  const { id: studentId } = await ask(page, 'student/add', student);
  const lesson = { studentId, date: '2026-05-12', club: '7 iron', handedness: 'right', note: '' } as const;
  const { id: lessonId } = await ask(page, 'lesson/add', lesson);
  for (const label of swings) await ask(page, 'swing/add', { lessonId, label });
  const session = { program, page, pid, swings };
  await startAnew(session);
  return session;
}

/** Loads the page again, as it is after a start with this book, and puts eyes and hands into it. */
export async function startAnew({ page, pid }: Session): Promise<void> {
  await page.reload();
  await page.getByRole('button', { name: 'Add a swing' }).first().waitFor();
  await page.evaluate(installEyes);
  await page.evaluate(installHands);
  await waitForQuiet(pid);
}

/** From the book's page to the sheet of a swing. */
export async function openSwing({ page }: Session, label: string): Promise<void> {
  await button(page, new RegExp(`^${label} `)).click();
  await page
    .getByText(/^Name at least one checkpoint first|^Save stills/)
    .first()
    .waitFor();
}

/** Back to the book's page. */
export async function closeSwing({ page }: Session): Promise<void> {
  await button(page, 'Students').click();
  await button(page, 'Add a swing').first().waitFor();
}

/** Milliseconds to the first pictures of a file that comes in; null for one that did not come. */
export interface FirstPictures {
  /** From the press that chooses the file to a picture of it, before it is added. */
  readonly looked: number | null;
  /** From the press that adds it to its picture on the bench; the clip is opened the moment that it can be. */
  readonly onBench: number | null;
}

/** Chooses the file for a view of the open swing, adds all of it, and opens it on the bench. */
export async function importClip(session: Session, clip: SeenClip, view: View): Promise<FirstPictures> {
  const { page } = session;
  const looked = await chooseClip(session, clip, view);
  // Its first picture shows before its frames are listed. Of a long clip only the swing would be added.
  await page.getByText('Looking at the clip ...').waitFor({ state: 'detached' });
  if (await button(page, 'Add the swing').isVisible()) await page.getByText('Keep only the swing').click();
  await button(page, 'Add clip').waitFor();
  const open = `Open clip, ${VIEW_LABELS[view]}`;
  const adding = { press: 'Add clip', then: open, wait: 'painted', limit: FIRST_LIMIT } as const;
  return { looked, onBench: await page.evaluate(pressUntilPicture, adding) };
}

/** Chooses the file for a view of the open swing: milliseconds until a picture of it shows; null: none came. */
export async function chooseClip({ page, program }: Session, clip: SeenClip, view: View): Promise<number | null> {
  await answerDialogs(program.app, clip.path);
  await lookAt({ page }, clip);
  const add = `Add a clip, ${VIEW_LABELS[view].toLowerCase()}`;
  return page.evaluate(pressUntilPicture, { press: add, then: null, wait: 'looked', limit: LOOKED_LIMIT } as const);
}

/** Opens a clip that is in the swing already. */
export async function openClip(session: Session, clip: BenchClip, view: View): Promise<void> {
  const { page } = session;
  await lookAt(session, clip);
  await button(page, `Open clip, ${VIEW_LABELS[view]}`).click();
  await page.locator('canvas[data-shown="0"]').waitFor();
}

/** Tells the eyes where the code lies in the pictures of this clip. */
async function lookAt(
  { page }: Pick<Session, 'page'>,
  { stored, turn }: Pick<SeenClip, 'stored' | 'turn'>,
): Promise<void> {
  const facts = { cells: cellMiddles(stored, turn), least: LEAST_CONTRAST };
  await page.evaluate((known) => {
    window.bench.cells = known.cells;
    window.bench.least = known.least;
    window.bench.forget();
  }, facts);
}

function button(page: Page, name: string | RegExp): Locator {
  return page.getByRole('button', { name, exact: true });
}
