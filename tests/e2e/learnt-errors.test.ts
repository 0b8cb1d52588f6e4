import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { clipPath, storeClipFile } from '../../core/book/media.ts';
import { openBook } from '../../core/book/open-book.ts';
import type { PlacedPoint } from '../../core/model/mark.ts';
import { seeded } from '../support/seeded.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { clearMarks } from './write-edits.ts';

const LESSONS = 7;
/** Two at the top, as with the lead arm level the model errs as there, and two without a name. */
const FRAMES = [10, 20, 30, 40];
const NAMES = { top: 10, 'lead-arm-level-down': 20 } as const;
const [ASSUMED, SIZE, OFFSET] = [13, 700, 28];
const NONE = { note: '', club: '7 iron', handedness: 'right' } as const;

/** Lessons of before, in which the coach put the lead hip 28 pixels toward the target each time, by and large. */
async function addCorrected(folder: string, swingId: string): Promise<void> {
  const random = seeded(17);
  const book = openBook(folder);
  try {
    const { student, clips } = book.openSwing(swingId);
    const from = clips.find(({ view }) => view === 'face-on');
    if (from === undefined) throw new Error('no clip face on');
    const [path, index] = [await clipPath(book, from.id), book.clipIndex(from.id)];
    for (let number = 1; number <= LESSONS; number += 1) {
      const lesson = book.addLesson({ ...NONE, studentId: student.id, date: `2020-01-0${String(number)}` });
      const swing = book.addSwing({ lessonId: lesson.id, label: 'Swing 1' });
      const file = await storeClipFile(book, path, { how: 'linked' });
      const clip = book.addClip({ swingId: swing.id, view: 'face-on', originalName: 'a.mp4', file, index });
      const pointOf = (frame: number) => ({ index: frame, pts: index.frames[frame]?.pts ?? 0 });
      for (const [name, frame] of Object.entries(NAMES) as [keyof typeof NAMES, number][])
        book.setCheckpoint(clip.id, name, pointOf(frame));
      for (const frame of FRAMES) {
        const at = { x: 600, y: 500 };
        const proposed = { ...at, model: at, assumed: ASSUMED, size: SIZE, at: '2020-01-01T12:00:00.000Z' };
        const [x, y] = [600 + OFFSET + 16 * (random() - 0.5), 500 + 16 * (random() - 0.5)];
        const points = { 'lead-hip': { x, y, hidden: false, proposed } };
        book.saveMarks(clip.id, { frame: pointOf(frame), points, shapes: [] });
      }
    }
  } finally {
    book.close();
  }
}

describe('errors of proposed points', () => {
  let demo: DemoProgram;
  let page: Page;
  let top = 0;

  beforeAll(async () => {
    demo = await openDemoProgram('learnt');
    await demo.program.close();
    await addCorrected(join(demo.folder, 'book'), demo.ids.now);
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    const clip = clipOf(await demo.readSwing(), 'face-on');
    top = clip.checkpoints.top?.index ?? 0;
    await clearMarks(page, clip);
    await page.reload();
  }, 240_000);
  afterAll(() => demo.close());

  /** The rows of one point stand together; the first of them begins with its name. */
  const row = (where: string) =>
    page
      .getByRole('rowgroup')
      .filter({ has: page.getByRole('rowheader', { name: 'Lead hip' }) })
      .filter({ hasText: 'Face on' })
      .getByRole('row', { name: new RegExp(`^(Lead hip Face on )?${where}`) });
  const hip = async (): Promise<PlacedPoint | undefined> =>
    clipOf(await demo.readSwing(), 'face-on').marks.find(({ frame }) => frame.index === top)?.points['lead-hip'];

  test('are listed as learnt, with what is taken out', async () => {
    await page.getByRole('button', { name: 'Repeat check' }).click();
    await expect
      .poll(() => row('Top, lead arm level').textContent())
      .toMatch(/14 corrections in 7 lessons2\d px toward the target$/);
    expect(await row('Frames without a name').textContent()).toMatch(/14 corrections in 7 lessons2\d px/);
    expect(await row('Elsewhere').textContent()).toMatch(/28 corrections in 7 lessons2\d px/);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
  });

  test('are what a point accepted where it stands is told with, and its offset is taken out', async () => {
    await demo.openSwing();
    await page.getByRole('button', { name: 'Open clip, Face on' }).click();
    const go = page.getByRole('textbox', { name: 'Go to frame' });
    await go.fill(String(top));
    await go.press('Enter');
    await page.getByText('Exact picture').waitFor();
    await page.keyboard.press('p');
    await page.getByRole('button', { name: 'Propose the points' }).click();
    await page.getByText(/^\d+ points are proposed\./).waitFor({ timeout: 90_000 });
    await page.getByText(/^Such a place lies about .* \(one standard deviation, (assumed|learnt from)/).waitFor();
    await page.getByRole('button', { name: 'Accept all that are left' }).click();
    await page.getByRole('button', { name: 'Head centre, placed' }).waitFor();
    const placed = await hip();
    if (placed?.proposed === undefined || placed.guess === undefined) throw new Error('the hip is not as proposed');
    const { model, size, assumed, learnt } = placed.proposed;
    within(placed.x - model.x, (OFFSET * size) / SIZE, 2);
    expect(placed.y).toBe(model.y);
    expect(learnt).toBe(14);
    expect(placed.guess).toBeLessThan(assumed);

    await page.keyboard.press('m');
    const at = await demo.onScreen(placed);
    await page.mouse.click(at.x, at.y);
    await page.getByText(/^Stands as proposed\. .* learnt from 14 corrections\)\.$/).waitFor();
  });

  test('learn from a drag, as one edit, and forget when the coach says so', async () => {
    const before = await hip();
    if (before === undefined) throw new Error('the hip is gone');
    const at = await demo.onScreen(before);
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 6, at.y, { steps: 3 });
    await page.mouse.up();
    const moved = await hip();
    expect(moved?.guess).toBeUndefined();
    expect(moved?.proposed).toEqual(before.proposed);
    await page.getByText(/^Stands as proposed/).waitFor({ state: 'detached' });

    const repeat = page.getByRole('button', { name: 'Repeat check' });
    await repeat.click();
    await expect.poll(() => row('Top').textContent()).toMatch(/15 corrections in 8 lessons/);
    expect(await row('Frames without a name').textContent()).toMatch(/14 corrections in 7 lessons/);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    await page.keyboard.press('Control+z');
    expect(await hip()).toEqual(before);
    await repeat.click();
    await expect.poll(() => row('Top').textContent()).toMatch(/14 corrections in 7 lessons/);

    await page.getByRole('button', { name: 'Begin anew' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Forget it' }).click();
    await page.getByText('28 corrections from before you began anew do not count.').waitFor();
    expect(await row('').count()).toBe(0);
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    expect(await hip()).toEqual(before);
  });
});
