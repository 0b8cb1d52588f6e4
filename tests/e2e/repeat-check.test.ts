import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  formatAgreement,
  formatAmount,
  formatPlacing,
  formatReading,
  labelOf,
} from '../../core/measure/words/format.ts';
import { slowingOf } from '../../core/time/swing-clock.ts';
import { namingSpreads, namingsInWords } from '../../core/measure/repeat/naming-spread.ts';
import { placingErrorsOf, placingSpreads, pooledPlacing } from '../../core/measure/repeat/placing-spread.ts';
import { readingRepeats } from '../../core/measure/repeat/reading-repeats.ts';
import { changesInWords, enoughInWords, scatterInWords } from '../../core/measure/repeat/repeat-words.ts';
import { readSwing } from '../../core/measure/readings/read-swing.ts';
import { BODY_POINTS, BODY_POINT_INFO } from '../../core/model/body-points.ts';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { repeatFrameOf } from '../../core/model/repeat-check.ts';
import type { RepeatFrame, RepeatNaming } from '../../core/model/repeat-check.ts';
import type { MeasuredReading } from '../../core/model/reading.ts';
import { markedSwingOf, marksAt } from '../../core/model/swing.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { copyDemoBook } from '../support/demo-book.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { ask } from './page-hands.ts';

/** Two frames of the view down the line, eight points each, each twice more. */
const FRAMES = ['address', 'top'] as const satisfies readonly Checkpoint[];
const PLACINGS = 32;
/** Frames that the top is named off by, round by round. */
const NAMED = [2, -1];

/**
 * Screen pixels that the hand is off by, another way for each point and round. Of three placings of a point the first is
 * the mark itself.
 */
const ROUNDS = 2;
function offOf(point: BodyPointId, round: number): PicturePoint {
  const n = BODY_POINTS.indexOf(point) + 3 * round;
  return { x: ((5 * n) % 9) - 4, y: ((7 * n) % 11) - 5 };
}

/** One journey through one window: each test goes on where the one before ended, so that the file is longer than others. */
describe('a repeat check', () => {
  let folder: string;
  let program: RunningBaybook;
  let page: Page;
  let swing: BookSwing;
  let clip: BookClip;
  /** What was clicked, in picture pixels, by frame and point, in the order of the clicks. */
  const clicked = new Map<string, PicturePoint[]>();

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-repeat-'));
    await copyDemoBook(join(folder, 'book'), join(folder, 'settings', 'scrub-copies'));
    await open();
    const students = await ask(page, 'student/list', null);
    swing = await ask(page, 'swing/open', { id: students[0]?.lessons[0]?.swings[0]?.swing.id ?? '' });
    const found = swing.clips.find(({ view }) => view === 'down-the-line');
    if (found === undefined) throw new Error('the demo has no clip down the line');
    clip = found;
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  async function open(): Promise<void> {
    const [bookFolder, userData] = [join(folder, 'book'), join(folder, 'settings')];
    program = await launchBaybook({ bookFolder, userData, width: 1280, height: 720 });
    page = program.window;
    page.setDefaultTimeout(40_000);
  }
  async function openSheet(): Promise<void> {
    await page
      .getByRole('button', { name: /^Swing 1 down the line/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Open Top, Down the line, on the bench' }).waitFor();
  }
  async function openAddress(): Promise<void> {
    await page.getByRole('button', { name: 'Open Address, Down the line, on the bench' }).click();
    await page.getByText('Exact picture').waitFor();
  }
  const stage = (): Locator => page.getByRole('application');
  const canvas = (): Locator => stage().locator('canvas[data-shown]');

  /** How the picture lies in the page: CSS pixels of the page from those of the picture, and back. */
  async function view() {
    const box = await canvas().boundingBox();
    const data = await canvas().evaluate((each) => (each instanceof HTMLCanvasElement ? { ...each.dataset } : {}));
    const zoom = Number(data['zoom']);
    const left = (box?.x ?? Number.NaN) + Number(data['left']);
    const top = (box?.y ?? Number.NaN) + Number(data['top']);
    return {
      shown: Number(data['shown']),
      toPage: ({ x, y }: PicturePoint) => ({ x: Math.round(x * zoom + left), y: Math.round(y * zoom + top) }),
      toPicture: ({ x, y }: PicturePoint) => ({ x: (x - left) / zoom, y: (y - top) / zoom }),
    };
  }
  async function pointAsked(): Promise<BodyPointId> {
    const words = await page.getByRole('heading', { name: /^Next: / }).innerText();
    const point = BODY_POINTS.find((each) => `Next: ${BODY_POINT_INFO[each].label.toLowerCase()}` === words);
    if (point === undefined) throw new Error(words);
    return point;
  }
  /** Whether nothing at all is drawn over the picture. */
  function isBare(): Promise<boolean> {
    return stage()
      .locator('canvas.lower-canvas, canvas.upper-canvas')
      .evaluateAll((all) =>
        all.every((each) => {
          if (!(each instanceof HTMLCanvasElement)) return false;
          const data = each.getContext('2d')?.getImageData(0, 0, each.width, each.height).data ?? [1];
          return data.every((value) => value === 0);
        }),
      );
  }
  const exact = (showing: number) =>
    stage()
      .and(page.getByRole('application', { name: `Frame ${String(showing)} of 4 of the check, exact` }))
      .waitFor();
  const exactOf = (showings: number) =>
    page.getByRole('application', { name: `Frame 1 of ${String(showings)} of the check, exact` }).waitFor();
  const progress = (point: number) =>
    page.getByText(`Point ${String(point)} of ${String(PLACINGS)}`, { exact: true }).waitFor();

  /** Places the point that is asked for, off by what the hand is off by, and takes it down. */
  async function placeNext(): Promise<{ readonly point: BodyPointId; readonly shown: number }> {
    const point = await pointAsked();
    const { shown, toPage, toPicture } = await view();
    const marked = clip.marks.find(({ frame }) => frame.index === shown)?.points[point];
    if (marked === undefined) throw new Error(`${point} was never marked on frame ${String(shown)}`);
    const name = `${String(shown)} ${point}`;
    const before = clicked.get(name) ?? [];
    if (before.length >= ROUNDS) throw new Error(`${name} is asked for a third time`);
    const off = offOf(point, before.length + 1);
    const place = toPage(marked);
    const at = { x: place.x + off.x, y: place.y + off.y };
    await page.mouse.click(at.x, at.y);
    clicked.set(name, [...before, toPicture(at)]);
    return { point, shown };
  }

  function frames(): readonly RepeatFrame[] {
    return FRAMES.map((checkpoint) => {
      const frame = clip.checkpoints[checkpoint];
      const marks = marksAt(clip, checkpoint);
      if (frame === undefined || marks === null) throw new Error(`the demo has no ${checkpoint}`);
      const points = BODY_POINTS.filter((point) => clicked.has(`${String(frame.index)} ${point}`));
      const placings = Object.fromEntries(
        points.map((point) => {
          const marked = marks.points[point];
          if (marked === undefined) throw new Error(`${point} was never marked`);
          return [point, [{ x: marked.x, y: marked.y }, ...(clicked.get(`${String(frame.index)} ${point}`) ?? [])]];
        }),
      );
      return repeatFrameOf(clip, swing.lesson.handedness, { clipId: clip.id, frame, placings });
    });
  }
  /** The top as it was named again, from the frames' own time stamps. */
  function namings(): readonly RepeatNaming[] {
    const top = clip.checkpoints.top;
    if (top === undefined) throw new Error('the demo has no top');
    const seconds = top.ticks * (clip.timebase.num / clip.timebase.den);
    const after = [0, ...NAMED].map((frames) => frames * seconds * slowing());
    return [{ clipId: clip.id, checkpoint: 'top', frameSeconds: seconds * slowing(), after }];
  }
  const slowing = (): number => slowingOf(clip) ?? Number.NaN;
  async function rowsOf(table: string): Promise<string[][]> {
    const rows = page.getByRole('table', { name: table }).locator('tbody tr, tfoot tr');
    return rows.evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent ?? '')));
  }
  const rowOf = (name: RegExp): Locator => page.locator('li', { has: page.getByRole('button', { name }) }).first();
  const backIncline = (): Locator => rowOf(/^Back incline/);
  function computed(errors = placingErrorsOf(frames())): MeasuredReading {
    const found = readSwing(markedSwingOf(swing), errors).find(
      ({ id, checkpoint, view: of }) => id === 'back-incline' && checkpoint === 'address' && of === 'down-the-line',
    );
    if (found?.state !== 'measured') throw new Error('the demo has no back incline at address');
    return found;
  }

  test('is found from the book, which says what it needs', async () => {
    await page.getByRole('button', { name: 'Repeat check' }).click();
    await page.getByRole('heading', { name: 'How steady is your hand?' }).waitFor();
    await page.getByText('Open a swing with marked frames first').waitFor();
    await page.getByText('No repeat check is kept yet: 3 px are assumed for every point.').waitFor();
    await page.getByRole('button', { name: 'Close' }).click();
    await openSheet();
    await openAddress();
    expect(await rowOf(/^Shoulders to spine/).textContent()).toContain('click error assumed');
  });

  test('suggests six frames, address, top and impact of both views, and up to eight points', async () => {
    await page.getByRole('button', { name: 'Repeat check' }).click();
    const boxes = page.getByRole('group', { name: 'Frames to show again' }).getByRole('checkbox');
    const chosen = await boxes.evaluateAll((all) =>
      all.flatMap((each) =>
        each instanceof HTMLInputElement && each.checked ? [each.labels?.[0]?.textContent ?? ''] : [],
      ),
    );
    expect(chosen.map((words) => words.replace(/:.*/, ''))).toEqual(
      ['Address', 'Top', 'Impact'].flatMap((name) => [`${name}, down the line`, `${name}, face on`]),
    );
    await page.getByText(/twice more: 96 placings, 6 namings/).waitFor();
    expect(await seriousViolations(program.app)).toEqual([]);
    for (const name of [/^Address, face on/, /^Top, face on/, /^Impact, down/, /^Impact, face on/])
      await page.getByText(name).first().click();
    await chooseNames(['Top, down the line']);
    await page.getByText(/twice more: 32 placings, 2 namings/).waitFor();
    await page.getByRole('button', { name: 'Begin' }).click();
  });

  /** Of the frames to be named again leaves these chosen. */
  async function chooseNames(names: readonly string[]): Promise<void> {
    const group = page.getByRole('group', { name: 'Frames to find and name again' });
    for (const label of await group.locator('label').all()) {
      const chosen = await label.getByRole('checkbox').isChecked();
      if (chosen !== names.includes((await label.innerText()).trim())) await label.click();
    }
  }

  test('has the top named again, with neither its name nor any number in sight, from elsewhere each time', async () => {
    const top = clip.checkpoints.top?.index ?? -1;
    const starts: number[] = [];
    for (const [round, off] of NAMED.entries()) {
      await page.getByRole('application', { name: `Naming ${String(round + 1)} of 2: find top` }).waitFor();
      await canvas().waitFor();
      // The frame that was named before is in sight until the picture of another comes.
      const before = starts.length === 0 ? -1 : top + (NAMED[round - 1] ?? 0);
      await expect.poll(async () => (await view()).shown).not.toBe(before);
      const { shown } = await view();
      starts.push(shown);
      expect(shown).not.toBe(top);
      expect(await isBare()).toBe(true);
      expect(await page.locator('body').innerText()).not.toMatch(/frame \d+|\d s (real|on)/i);
      if (round === 0) expect(await seriousViolations(program.app)).toEqual([]);
      const key = shown < top + off ? 'ArrowRight' : 'ArrowLeft';
      for (let left = Math.abs(top + off - shown); left > 0; left -= 1) await page.keyboard.press(key);
      await stage()
        .locator(`canvas[data-shown="${String(top + off)}"]`)
        .waitFor();
      if (round === 0) {
        // Back one has nothing before the first; after it, it has, and the frame that was chosen is in sight again.
        await page.keyboard.press('Enter');
        await page.getByRole('button', { name: 'Back one' }).click();
        await page.getByRole('application', { name: 'Naming 1 of 2: find top' }).waitFor();
        await stage()
          .locator(`canvas[data-shown="${String(top + off)}"]`)
          .waitFor();
      }
      await page.keyboard.press('Enter');
    }
    expect(starts).toHaveLength(2);
  });

  test('shows frames bare; Backspace goes back over frames; Esc asks before it is left', async () => {
    await exact(1);
    await progress(1);
    expect(await isBare()).toBe(true);
    await page.keyboard.press('Backspace');
    await progress(1);
    const first = await placeNext();
    await progress(2);
    await expect.poll(isBare).toBe(false);
    // Enter places nothing where the point stood before: it has to be found anew.
    expect(await page.getByText('accepts the dashed ring').count()).toBe(0);
    await page.keyboard.press('Escape');
    // The point that was just placed is let go of first.
    await page.keyboard.press('Escape');
    const dialog = page.getByRole('dialog', { name: 'Leave the repeat check?' });
    await dialog.getByText(/one point, is dropped/).waitFor();
    await dialog.getByRole('button', { name: 'Go on' }).click();
    await dialog.waitFor({ state: 'hidden' });
    await progress(2);
    await page.keyboard.press('Backspace');
    await progress(1);
    clicked.delete(`${String(first.shown)} ${first.point}`);
    expect(await pointAsked()).toBe(first.point);
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('asks for every point twice on each frame, and never shows a frame twice running', async () => {
    const order: number[] = [];
    for (let placed = 0; placed < PLACINGS; placed += 1) {
      await progress(placed + 1);
      const showing = Math.floor(placed / 8) + 1;
      await exact(showing);
      if (placed % 8 === 0) expect(await isBare()).toBe(true);
      const { shown, point } = await placeNext();
      if (placed % 8 === 0) order.push(shown);
      if (placed === 8) {
        // One back from the second point of a frame, and another back into the frame before.
        await progress(10);
        await page.keyboard.press('Backspace');
        await progress(9);
        await page.keyboard.press('Backspace');
        await progress(8);
        const last = clicked.get(`${String(order[0])} ${await pointAsked()}`);
        last?.pop();
        clicked.get(`${String(shown)} ${point}`)?.pop();
        await exact(1);
        await placeNext();
        await exact(2);
        await progress(9);
        await placeNext();
      }
    }
    expect(new Set(order).size).toBe(2);
    for (const [at, shown] of order.entries()) expect(shown).not.toBe(order[at - 1]);
    expect([...clicked.values()].map(({ length }) => length)).toEqual(Array.from({ length: 16 }, () => 2));
  });

  test('says in plain sentences how far these clicks scatter, what counts as a change and what repeats', async () => {
    await page.getByRole('heading', { name: 'How steady your hand is' }).waitFor();
    const told = async (name: string) => page.getByRole('region', { name }).locator('p').allInnerTexts();
    expect(await told('How far your clicks scatter')).toEqual(scatterInWords(frames()));
    // Frames on and back from the one that was named, 120 a second: 0, 2 and -1 about their mean, two degrees of freedom.
    const sd = Math.sqrt((1 / 3) ** 2 + (5 / 3) ** 2 + (4 / 3) ** 2) / Math.SQRT2 / 120;
    expect(namings()[0]?.after.map((seconds) => Math.round(seconds * 120))).toEqual([0, ...NAMED]);
    within(namingSpreads(namings())[0]?.sd ?? 0, sd, 1e-4);
    expect(await told('How far your namings scatter')).toEqual(namingsInWords(namings()));
    const repeats = readingRepeats(frames());
    expect((await told('What counts as a change')).slice(0, -1)).toEqual(changesInWords(repeats));
    const { goals } = await ask(page, 'goals/read', null);
    expect(await told('Which readings repeat well enough')).toEqual(enoughInWords(repeats, goals));
    // The sentences come before any table, and no term of the trade stands in them.
    const words = (await page.locator('main, body').first().innerText()).split('Agreement (ICC)')[0] ?? '';
    expect(words).toContain('may just be your clicking');
    expect(words.split('Scatter of one reading')[0]).not.toMatch(/SEM|MDC|ICC|deviation/);
    expect(await page.getByRole('table').count()).toBe(1);
    expect(await seriousViolations(program.app)).toEqual([]);
    // Enter takes the numbers.
    expect(
      await page.getByRole('button', { name: 'Use these numbers' }).evaluate((each) => each === document.activeElement),
    ).toBe(true);
    // Nothing reaches past the window when text is twice as large, as the settings make it.
    for (const size of ['200', '100']) {
      await page.evaluate((text) => (document.documentElement.dataset['text'] = text), size);
      const wide = await page.evaluate(() =>
        [...document.querySelectorAll('main p, table, section')].map((each) => each.getBoundingClientRect().right),
      );
      expect(Math.max(...wide)).toBeLessThanOrEqual(1280);
    }
  });

  test('shows the deviation of exactly these clicks, a body point and a reading', async () => {
    await page.getByRole('button', { name: /^How these numbers are made/ }).click();
    const spreads = placingSpreads(frames());
    const pooled = pooledPlacing(frames());
    expect(spreads).toHaveLength(8);
    expect(await rowsOf('Click error of each body point')).toEqual([
      ...spreads.map(({ point, sd, freedom }) => [BODY_POINT_INFO[point].label, formatPlacing(sd, freedom)]),
      ['All together', formatPlacing(pooled?.sd ?? 0, pooled?.freedom ?? 0)],
    ]);
    // The same by hand, for one point: deviations from the mean of three placings, two frames, 8 degrees of freedom.
    const [one] = spreads;
    const squares = frames().flatMap(({ placings }) =>
      (['x', 'y'] as const).flatMap((axis) => {
        const places = (one === undefined ? [] : (placings[one.point] ?? [])).map((place) => place[axis]);
        const mean = places.reduce((sum, value) => sum + value, 0) / places.length;
        return places.map((value) => (value - mean) ** 2);
      }),
    );
    expect(one?.freedom).toBe(8);
    // Rounding in the last bits.
    within(one?.sd ?? 0, Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / 8), 1e-9);
    const repeats = readingRepeats(frames());
    expect(repeats.map(({ id }) => id)).toContain('back-incline');
    expect(await rowsOf('How well each reading repeats')).toEqual(
      repeats.map(({ sem, smallestChange, icc, unit, things, rounds, ...key }) => [
        `${labelOf(key)}, down the line`,
        formatAmount(sem, unit),
        formatAmount(smallestChange, unit),
        icc === null ? 'needs two frames' : formatAgreement(icc),
        `${things === 1 ? '1 frame' : `${String(things)} frames`}, ${String(rounds)} placings`,
      ]),
    );
    for (const words of [/measurement \(SEM\)/, /change \(MDC95\)/, /correlation \(ICC\)/])
      await page.getByText(words).waitFor();
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('once in use, readings count with it and no longer call their click error assumed', async () => {
    const own = formatReading(computed()).text;
    // On paper both may have the same digits: what joints are taken to be counts for more than clicks.
    expect(computed().u).not.toBe(computed({ known: {}, assumed: 3 }).u);
    await page.getByRole('button', { name: 'Use these numbers' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('Exact picture').waitFor();
    expect(await backIncline().innerText()).toContain(own);
    // Back incline leans on the plumb, whose ends are still placed with what is assumed; this one on points alone.
    const shoulders = rowOf(/^Shoulders to spine/);
    expect(await shoulders.textContent()).toContain('± calculated');
    expect(await shoulders.textContent()).not.toContain('click error assumed');
    // Points that were not checked keep what is assumed.
    expect(await rowOf(/^Shaft incline/).textContent()).toContain('click error assumed');
    // The marks themselves were left alone.
    expect((await ask(page, 'swing/open', { id: swing.swing.id })).clips).toEqual(swing.clips);
  });

  test('is there after a restart, and goes when it is removed', async () => {
    await program.close();
    await open();
    await openSheet();
    await openAddress();
    await expect.poll(() => backIncline().innerText()).toContain(formatReading(computed()).text);
    await page.getByRole('button', { name: 'Repeat check' }).click();
    const kept = page.getByRole('list', { name: 'Kept repeat checks' }).getByRole('listitem');
    expect(await kept.count()).toBe(1);
    expect(await kept.innerText()).toMatch(/2 frames, 32 placings, 2 namings/);
    // The next check begins with what this one left out.
    await chooseNames([]);
    await page.getByRole('button', { name: 'Begin' }).click();
    await exactOf(12);
    expect(clicked.has(`${String((await view()).shown)} ${await pointAsked()}`)).toBe(false);
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Leave and drop it' }).click();
    await page.getByText('Exact picture').waitFor();
    expect(await ask(page, 'repeat/list', null)).toHaveLength(1);
    await page.getByRole('button', { name: 'Repeat check' }).click();
    await page.getByRole('button', { name: /^Remove the check of/ }).click();
    await page.getByRole('button', { name: 'Remove it' }).click();
    await page.getByText('No repeat check is kept yet').waitFor();
    await page.getByRole('button', { name: 'Close' }).click();
    expect(await backIncline().innerText()).toContain(formatReading(computed({ known: {}, assumed: 3 })).text);
    expect(await rowOf(/^Shoulders to spine/).textContent()).toContain('click error assumed');
  });
});
