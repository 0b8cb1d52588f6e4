import { copyFile, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clipPath } from '../../core/book/media.ts';
import { openBook } from '../../core/book/open-book.ts';
import { BODY_POINTS, BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { marksAt } from '../../core/model/swing.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, HANDEDNESS_LABELS } from '../../core/model/words.ts';
import type { Checkpoint, Handedness, View } from '../../core/model/words.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { clipOf, placeOnScreen } from './demo-program.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { answerDialogs } from './page-hands.ts';

/** The whole job, quiet or not; a coach's own time is beside that. */
const LIMIT_MS = 240_000;
/** Enough for the back and the shoulders: what shoulders to spine is made from. */
const POINTS = 5;

interface Filmed {
  readonly path: string;
  /** Where everything is in it, as the made-up scene knows: the eyes of whoever marks it. */
  readonly truth: BookClip;
}

/**
 * Somebody who has never seen the program, and has nothing but the screen: a control is pressed only if the screen of now
 * or the one before it has called it by the words that stand on it. Files come from the invented swings of the demo.
 */
describe('who is new to the program', () => {
  let folder: string;
  let program: RunningBaybook;
  let page: Page;
  let handedness: Handedness;
  const filmed = new Map<string, Filmed>();

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-new-user-'));
    await copyDemoBook(join(folder, 'demo'));
    const demo = openBook(join(folder, 'demo'));
    const [student] = demo.listStudents();
    for (const [place, which] of (['now', 'then'] as const).entries()) {
      const swing = demo.openSwing(student?.lessons[place]?.swings[0]?.swing.id ?? '');
      handedness = swing.lesson.handedness;
      for (const view of ['down-the-line', 'face-on'] as const) {
        const truth = clipOf(swing, view);
        const path = join(folder, truth.originalName);
        await copyFile(await clipPath(demo, truth.id), path);
        filmed.set(`${which} ${view}`, { path, truth });
      }
    }
    demo.close();
    program = await launchBaybook({ bookFolder: join(folder, 'book'), width: 1280, height: 720 });
    page = program.window;
    page.setDefaultTimeout(20_000);
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  });

  /** What stood between quotes on the screen before this one. */
  let toldBefore: readonly string[] = [];
  const told = async (): Promise<readonly string[]> =>
    [...(await page.locator('body').innerText()).matchAll(/“([^”]+)”/g)].map(([, words = '']) => words);
  const showing = (words: string, within: Page | Locator): Locator =>
    within.getByRole('button').filter({
      visible: true,
      hasText: new RegExp(`^\\s*${words.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)}`),
    });

  /** Waits until the screen tells to press something, and presses what has these words on it. */
  async function press(words: string, within: Page | Locator = page): Promise<void> {
    let now: readonly string[] = [];
    const isTold = async (): Promise<boolean> => {
      now = await told();
      return now.includes(words) || toldBefore.includes(words);
    };
    await expect.poll(isTold, { timeout: 20_000, message: `the screen never tells of “${words}”` }).toBe(true);
    toldBefore = now;
    await showing(words, within).click();
  }

  /** A dialog asks for all it wants by the labels of its fields, and has one button that does it. */
  async function answer(title: string, fields: Readonly<Record<string, string>>, doIt: string): Promise<void> {
    const dialog = page.getByRole('dialog', { name: title });
    for (const [label, text] of Object.entries(fields)) await dialog.getByLabel(label).fill(text);
    await showing(doIt, dialog).click();
    await dialog.waitFor({ state: 'detached' });
  }

  /** The one line over the picture that says what to do. */
  const hint = async (pattern: RegExp): Promise<string> => {
    const line = page.getByRole('application').getByText(pattern);
    await line.waitFor();
    return line.innerText();
  };

  async function addClip(which: 'then' | 'now', view: View, words: string): Promise<BookClip> {
    const file = filmed.get(`${which} ${view}`);
    if (file === undefined) throw new Error(`the demo has no clip ${which} ${view}`);
    await answerDialogs(program.app, file.path);
    await press(words);
    await page
      .getByRole('dialog')
      .getByText(/^\d+ frames, /)
      .waitFor();
    await answer('Add a clip', {}, 'Add clip');
    return file.truth;
  }

  /** Drags the strip to where the eye finds the instant that the hint asks for, and gives it the name that it tells. */
  async function findAndName(truth: BookClip): Promise<Checkpoint> {
    const said = await hint(/^Find .*: drag the strip below or use the arrow keys/);
    const checkpoint = CHECKPOINTS.find((each) => said.startsWith(`Find ${CHECKPOINT_LABELS[each].toLowerCase()}:`));
    const frame = checkpoint === undefined ? undefined : truth.checkpoints[checkpoint]?.index;
    if (checkpoint === undefined || frame === undefined) throw new Error(`who can follow "${said}"?`);
    const strip = page.getByRole('slider', { name: 'Frame', exact: true });
    const box = await strip.boundingBox();
    if (box === null) throw new Error('no strip in sight');
    await page.mouse.click(box.x + (box.width * frame) / (truth.frameCount - 1), box.y + box.height / 2);
    const shown = async (): Promise<number> =>
      Number(/^frame (\d+) of/.exec(await page.getByText(/^frame \d+ of \d+, /).innerText())?.[1]);
    for (let at = await shown(); at !== frame; at = await shown()) {
      await page.keyboard.press(at < frame ? 'ArrowRight' : 'ArrowLeft');
      await expect.poll(shown).not.toBe(at);
    }
    await page.getByText('Exact picture').waitFor();
    await press(`This is ${CHECKPOINT_LABELS[checkpoint].toLowerCase()}`);
    return checkpoint;
  }

  async function nameAll(truth: BookClip): Promise<void> {
    const names: Checkpoint[] = [];
    while (names.length < 3) names.push(await findAndName(truth));
    expect(names).toEqual(['address', 'top', 'impact']);
  }

  /** Goes to a checkpoint where the screen tells to, and places the points that it asks for, one after the other. */
  async function placePoints(truth: BookClip, checkpoint: Checkpoint, goes = true): Promise<void> {
    if (goes) await press(CHECKPOINT_LABELS[checkpoint]);
    await page.getByText('Exact picture').waitFor();
    await press('Points');
    for (let count = 0; count < POINTS; count += 1) {
      const said = await hint(/^Place /);
      const asked = BODY_POINTS.find((each) => said.startsWith(`Place ${BODY_POINT_INFO[each].label.toLowerCase()}, `));
      const at: PicturePoint | undefined = asked && marksAt(truth, checkpoint)?.points[asked];
      if (asked === undefined || at === undefined) throw new Error(`who can follow "${said}"?`);
      expect(said).toContain(BODY_POINT_INFO[asked].where);
      const place = await placeOnScreen(page, at);
      await page.mouse.click(place.x, place.y);
      await page
        .getByText(`${String(count + 1)} of `, { exact: false })
        .first()
        .waitFor();
    }
    await press('Move');
    await letGo();
  }

  async function letGo(): Promise<void> {
    await hint(/Esc: deselect\.$/);
    await page.keyboard.press('Escape');
  }

  async function drawHeadBox(truth: BookClip): Promise<void> {
    await press('Address');
    await page.getByText('Exact picture').waitFor();
    await press('Box');
    await hint(/^Drag a box from corner to corner/);
    const box = marksAt(truth, 'address')?.shapes.find((shape) => shape.kind === 'box');
    if (box?.kind !== 'box') throw new Error('the demo has no head box');
    const from = await placeOnScreen(page, box);
    const to = await placeOnScreen(page, { x: box.x + box.width, y: box.y + box.height });
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.mouse.up();
    expect(await page.getByLabel('This is the head box').isChecked()).toBe(true);
    await letGo();
    // It stays in hand for the next one, and says how it is put away.
    await hint(/Esc puts the tool away\.$/);
    await page.keyboard.press('Escape');
  }

  /** All of a clip down the line: from the sheet to the bench and back, with the reading at top in sight before. */
  async function markLine(truth: BookClip): Promise<void> {
    await press('Find address');
    await nameAll(truth);
    await placePoints(truth, 'address');
    await placePoints(truth, 'top');
    const reading = page.getByRole('region', { name: 'Readings at Top', exact: true });
    expect(await reading.innerText()).toMatch(/Shoulders to spine\s+\d+° ± \d+°/);
    await press('Lesson sheet');
  }

  async function addLesson(date: string | null): Promise<void> {
    await press('Add a lesson');
    await answer('Add a lesson', date === null ? {} : { Date: date }, 'Add lesson');
    const card = page.getByRole('article').filter({ hasText: 'Press “Swing 1” to add the clips you filmed.' });
    await press('Swing 1', card);
  }

  test(
    'finds the way from an empty book to stills of then and now by what the screen says alone',
    { timeout: LIMIT_MS },
    async () => {
      await press('Add your first student');
      await page.getByRole('dialog').getByText(HANDEDNESS_LABELS[handedness]).click();
      await answer('Add a student', { 'First name': 'Ada' }, 'Add student');

      await addLesson('2020-04-14');
      await markLine(await addClip('then', 'down-the-line', 'Add a clip, down the line'));
      await page.getByText('To compare, Ada needs an earlier lesson or another swing with a clip').waitFor();

      await press('Students');
      await addLesson(null);
      await markLine(await addClip('now', 'down-the-line', 'Add a clip, down the line'));
      const face = await addClip('now', 'face-on', 'Add a clip, face on');
      await press('Find address');
      await nameAll(face);
      await drawHeadBox(face);
      await placePoints(face, 'address', false);
      await press('Lesson sheet');

      const compare = 'Compare with an earlier swing (then)';
      await expect.poll(told).toContain(compare);
      await page.getByLabel(compare).selectOption({ label: '14 April 2020, 7 iron, Swing 1' });
      const cells = page.getByRole('cell', { name: /°: (changed|no change|can't tell|worth a look)$/ });
      await cells.first().waitFor();
      // The scene's shoulders turn 15 degrees flatter then than now.
      const spine = page.getByRole('row', { name: /^Shoulders to spine/ }).last();
      expect(await spine.innerText()).toMatch(/−1\d° ± \d+°: changed/);

      const stills = join(folder, 'stills');
      await mkdir(stills);
      await answerDialogs(program.app, stills);
      await press('Save stills');
      await page
        .getByRole('status')
        .getByText(/^Saved 3 stills in .*, ready to send\.$/)
        .waitFor({ timeout: 90_000 });
      expect((await readdir(stills)).filter((name) => name.endsWith('.jpg'))).toHaveLength(3);
    },
  );
});
