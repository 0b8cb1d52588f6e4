import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { setTimeout as pass } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BodyPointId } from '../../core/model/body-points.ts';
import type { BookClip } from '../../core/model/book.ts';
import type { PicturePoint } from '../../core/model/mark.ts';
import { pointsOfView } from '../../renderer/tools/points-tool.ts';
import { seeded } from '../support/seeded.ts';
import { sized } from '../support/sized.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { ask } from './page-hands.ts';
import { clearMarks, clearNames } from './write-edits.ts';

/**
 * Clicks that come before the picture: every one is in the book, on the frame that was asked for when it was made, where it
 * was made, under the name that was asked for. Pictures are late because the machine is busy, or because the process that
 * makes them stands still.
 */

/** The bar: none of so many is lost, misplaced, or given another's name. */
const CLICKS = sized(80, 200);
/** Single steps while the machine is quiet, and while it is busy. */
const [QUIET_STEPS, BUSY_STEPS] = sized([8, 6], [28, 15]);
/** Where the steps end. */
const STEPPED = QUIET_STEPS + BUSY_STEPS;
const QUICK = [1, 2, 3, 4, 5, 6].map((step) => STEPPED + step);
/** Frames that are jumped to while nothing comes: 12 jumps of 10 from the first, then 3 each. */
const JUMPED = sized([120, 150], [120, 150, 180]);

interface Click {
  readonly frame: number;
  readonly name: BodyPointId;
  readonly at: PicturePoint;
  /** The frame whose picture was on screen. */
  readonly saw: number;
}

describe('clicks that come before the picture', () => {
  let demo: DemoProgram;
  let page: Page;
  let server: number;
  const clicks: Click[] = [];
  const random = seeded(11);

  beforeAll(async () => {
    demo = await openDemoProgram('early');
    page = demo.page;
    const clip = clipOf(await ask(page, 'swing/open', { id: demo.ids.now }), 'down-the-line');
    await clearMarks(page, clip);
    await clearNames(page, clip);
    await page.reload();
    await demo.openSwing();
    await page.getByRole('button', { name: 'Open clip, Down the line' }).click();
    await exact(0);
    await page.keyboard.press('p');
    server = await frameServer();
  });
  afterAll(() => demo.close());

  const clip = async (): Promise<BookClip> => clipOf(await demo.readSwing(), 'down-the-line');
  const exact = (frame: number): Promise<void> =>
    page.getByRole('application', { name: new RegExp(`frame ${String(frame)} of .*exact`) }).waitFor();
  const stage = () =>
    page.locator('[role="application"] canvas[data-shown]').evaluate((each) => {
      const { left, top } = each.getBoundingClientRect();
      const { zoom, shown, ...data } = each instanceof HTMLCanvasElement ? each.dataset : {};
      return {
        shown: Number(shown),
        zoom: Number(zoom),
        left: left + Number(data['left']),
        top: top + Number(data['top']),
      };
    });
  const frameServer = (): Promise<number> =>
    demo.program.app.evaluate(({ app }) => {
      const found = app.getAppMetrics().find(({ name }) => name === 'Baybook frames');
      if (found === undefined) throw new Error('no frame server runs');
      return found.pid;
    });
  /** Nothing comes from the frame server meanwhile. */
  async function whileItStands(work: () => Promise<void>): Promise<void> {
    process.kill(server, 'SIGSTOP');
    try {
      await work();
    } finally {
      process.kill(server, 'SIGCONT');
    }
  }

  /** A click somewhere on the picture, away from the last; answers with where it was made, and what was seen there. */
  async function press(turn: number): Promise<{ readonly at: PicturePoint; readonly saw: number }> {
    const { left, top, zoom, shown } = await stage();
    const x = Math.round(left + zoom * (80 + 37 * (turn % 9)));
    const y = Math.round(top + zoom * (90 + 53 * (turn % 7)));
    await page.mouse.click(x, y);
    return { at: { x: (x - left) / zoom, y: (y - top) / zoom }, saw: shown };
  }
  async function place(frame: number, name: BodyPointId | undefined): Promise<void> {
    if (name === undefined) throw new Error('no such point');
    clicks.push({ frame, name, ...(await press(clicks.length)) });
  }
  const RUN = pointsOfView('down-the-line', null);

  /** One frame on, and three clicks on it, the first within a tenth of a second. */
  async function stepAndClick(from: number, steps: number): Promise<void> {
    for (let step = 1; step <= steps; step += 1) {
      await page.keyboard.press('ArrowRight');
      await pass(100 * random());
      for (const name of RUN.slice(0, 3)) await place(from + step, name);
    }
  }

  /** What is not as it was clicked, in words. */
  async function wrong(): Promise<readonly string[]> {
    const { marks } = await clip();
    return clicks.flatMap(({ frame, name, at }) => {
      const placed = marks.find((each) => each.frame.index === frame)?.points[name];
      if (placed === undefined) return [`${name} on frame ${String(frame)}: lost`];
      const by = Math.hypot(placed.x - at.x, placed.y - at.y);
      return by < 1e-6 ? [] : [`${name} on frame ${String(frame)}: off by ${String(by)} px`];
    });
  }

  test('after single steps, as quick as the window takes them', async () => {
    await stepAndClick(0, QUIET_STEPS);
    expect(await wrong()).toEqual([]);
  });

  test('on a busy machine', async () => {
    const busy: ChildProcess[] = [];
    try {
      for (let count = 0; count < 4; count += 1) busy.push(spawn(process.execPath, ['-e', 'for (;;);']));
      await stepAndClick(QUIET_STEPS, BUSY_STEPS);
    } finally {
      for (const each of busy) each.kill('SIGKILL');
    }
    expect(await wrong()).toEqual([]);
  });

  test('while the quick picture is there and the exact one is not', async () => {
    await exact(STEPPED);
    // Frames ahead are fetched; on them the exact picture cannot come.
    await pass(500);
    await whileItStands(async () => {
      for (const frame of QUICK) {
        await page.keyboard.press('ArrowRight');
        for (const name of RUN.slice(0, 3)) await place(frame, name);
      }
      await page.getByText('Quick picture, the exact one is coming').waitFor();
    });
    const seen = clicks.slice(-18);
    expect(seen.map(({ saw }) => saw)).toEqual(seen.map(({ frame }) => frame));
    await exact(STEPPED + QUICK.length);
    expect(await wrong()).toEqual([]);
  });

  test('while another frame is still on screen: it is dimmed, the clicks are kept and ringed until they were seen', async () => {
    for (const frame of JUMPED) {
      await exact(frame === 120 ? STEPPED + QUICK.length : frame - 30);
      await whileItStands(async () => {
        if (frame === 120) await page.keyboard.press('Home');
        const by = frame === 120 ? 12 : 3;
        for (let jump = 0; jump < by; jump += 1) await page.keyboard.press('Shift+ArrowRight');
        for (const name of RUN) await place(frame, name);
        await page.getByText(`Frame ${String(frame)} is coming`).waitFor();
        await page.getByText(`${String(RUN.length)} marks placed ahead of it`).waitFor();
        await page.locator('[role="application"][data-late="true"]').waitFor();
        if (frame === 120 && process.env['BAYBOOK_PICTURES'] !== undefined)
          await demo.program.screenshot(`${process.env['BAYBOOK_PICTURES']}/early-coming.png`);
      });
      expect(clicks.slice(-RUN.length).filter(({ saw }) => saw === frame)).toEqual([]);
      await exact(frame);
      await page.getByText(/marks placed before this picture came: look at the dotted rings/).waitFor();
      expect(await page.locator('[role="application"][data-late="true"]').count()).toBe(0);
      if (frame === 120 && process.env['BAYBOOK_PICTURES'] !== undefined)
        await demo.program.screenshot(`${process.env['BAYBOOK_PICTURES']}/early-come.png`);
      expect(await wrong()).toEqual([]);
    }
    // Whoever goes on has seen them.
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await page.getByText(/look at the dotted rings/).waitFor({ state: 'hidden' });
  });

  test(`none of ${String(CLICKS)} is lost, misplaced or renamed, and nothing else was placed`, async () => {
    expect(clicks.length).toBeGreaterThanOrEqual(CLICKS);
    expect(await wrong()).toEqual([]);
    const { marks } = await clip();
    expect(marks.reduce((sum, { points }) => sum + Object.keys(points).length, 0)).toBe(clicks.length);
  });

  test('a path that is clicked ahead of its pictures has a place on every frame, and says where to look', async () => {
    await page.keyboard.press('t');
    const from = 200;
    await goTo(from);
    await exact(from);
    const before = await stage();
    const placed: PicturePoint[] = [];
    await whileItStands(async () => {
      for (let turn = 0; turn < 15; turn += 1) placed.push((await press(turn)).at);
    });
    const told = page.getByText(/marks were placed on frames [\d, ]+ before their pictures were on screen/);
    await told.waitFor();
    // What is said takes no room away from the picture: the next click would land elsewhere.
    expect({ ...(await stage()), shown: 0 }).toEqual({ ...before, shown: 0 });
    const { marks, id } = await clip();
    const path = marks.flatMap(({ shapes }) => shapes).find((shape) => shape.kind === 'path');
    const index = await ask(page, 'clip/index', { id });
    expect(path?.kind === 'path' ? path.places.map(({ pts }) => pts) : []).toEqual(
      placed.map((_, turn) => index.frames[from + turn]?.pts),
    );
    for (const [turn, at] of placed.entries()) {
      const place = path?.kind === 'path' ? path.places[turn] : undefined;
      within(place?.x ?? 0, at.x, 1e-6);
      within(place?.y ?? 0, at.y, 1e-6);
    }
    await page.getByRole('button', { name: /^Go to frame/ }).click();
    await page
      .getByText(/mark placed before this picture came|Exact picture/)
      .first()
      .waitFor();
  });

  test('shapes are drawn on the frame that was asked for', async () => {
    await goTo(60);
    await exact(60);
    await whileItStands(async () => {
      for (let jump = 0; jump < 3; jump += 1) await page.keyboard.press('Shift+ArrowRight');
      for (const [tool, count] of [
        ['l', 2],
        ['b', 2],
        ['a', 3],
      ] as const) {
        await page.keyboard.press(tool);
        for (let turn = 0; turn < count; turn += 1) await press(turn);
        await page.keyboard.press('Escape');
      }
      await page.keyboard.press('c');
      for (const turn of [0, 5, 8]) await press(turn);
      await page.keyboard.press('Enter');
    });
    await exact(90);
    const { marks } = await clip();
    const shapes = marks.find(({ frame }) => frame.index === 90)?.shapes.map(({ kind }) => kind);
    expect(shapes).toEqual(['line', 'box', 'angle', 'circle']);
  });

  async function goTo(frame: number): Promise<void> {
    await page.getByRole('slider', { name: 'Frame', exact: true }).fill(String(frame));
  }

  test('arrow keys after a click step frames and leave the point where it is; with Ctrl they move it', async () => {
    await goTo(95);
    await exact(95);
    await page.keyboard.press('p');
    const { at } = await press(3);
    for (let step = 0; step < 9; step += 1) await page.keyboard.press('ArrowRight');
    await exact(104);
    const placed = async () => (await clip()).marks.find(({ frame }) => frame.index === 95)?.points['head-centre'];
    within((await placed())?.x ?? 0, at.x, 1e-6);
    await press(4);
    await page.getByText(/Ctrl\+arrow keys move head centre\./).waitFor();
    await page.keyboard.press('Control+ArrowRight');
    await page.keyboard.press('ArrowLeft');
    await exact(103);
    within((await placed())?.x ?? 0, at.x, 1e-6);
  });
});
