import { createHash } from 'node:crypto';
import { mkdir, readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { carriedShape, carryingBetween } from '../../core/compare/carry-shapes.ts';
import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { Shape } from '../../core/model/mark.ts';
import { marksAt } from '../../core/model/swing.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { gridEdges } from '../../renderer/canvas/pixel-grid.ts';
import { within } from '../support/within.ts';
import { clipOf, openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs } from './page-hands.ts';

/** Shapes stay, travel and can be taken back; the light of the picture changes nothing that is kept. */
describe('shapes', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('shapes');
    page = demo.page;
    await demo.openSwing();
    await page.getByLabel(/Compare with an earlier swing/).selectOption({ index: 1 });
    await open('Top');
    // Places below are those of the whole picture.
    await page.keyboard.press('f');
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp) => page.getByRole('button', { name });
  const stage = () => page.getByRole('application');
  const open = (label: string): Promise<void> => demo.openCell(label, 'face-on');
  const readSwing = (id?: string): Promise<BookSwing> => demo.readSwing(id);
  const faceOn = (swing: BookSwing): BookClip => clipOf(swing, 'face-on');
  async function shapesAt(checkpoint: Checkpoint): Promise<readonly Shape[]> {
    return marksAt(faceOn(await readSwing()), checkpoint)?.shapes ?? [];
  }
  async function at(dx: number, dy: number): Promise<{ x: number; y: number }> {
    const box = await stage().boundingBox();
    return { x: Math.round((box?.x ?? 0) + dx), y: Math.round((box?.y ?? 0) + dy) };
  }
  async function drag(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    const [start, end] = [await at(...from), await at(...to)];
    await page.mouse.move(start.x, start.y);
    await page.mouse.down();
    await page.mouse.move(end.x, end.y, { steps: 4 });
    await page.mouse.up();
  }
  async function goTo(label: string): Promise<void> {
    await page.keyboard.press('Escape');
    await button(new RegExp(`^${label}, frame`)).click();
    await page.getByText('Exact picture').waitFor();
  }
  async function click(dx: number, dy: number): Promise<void> {
    const place = await at(dx, dy);
    await page.mouse.click(place.x, place.y);
  }

  test('a circle is clicked on its edge, one of its places is dragged, and undo takes each back exactly', async () => {
    await page.keyboard.press('c');
    for (const [dx, dy] of [
      [200, 100],
      [260, 160],
      [200, 220],
    ] as const)
      await click(dx, dy);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Circle' }).waitFor();
    const [drawn] = await shapesAt('top');
    if (drawn?.kind !== 'circle' || drawn.rim === undefined) throw new Error('no circle through places');
    for (const place of drawn.rim)
      within(Math.hypot(place.x - drawn.centre.x, place.y - drawn.centre.y), drawn.radius, 1e-9);
    await drag([260, 160], [300, 160]);
    await expect.poll(() => shapesAt('top')).not.toEqual([drawn]);
    const [moved] = await shapesAt('top');
    if (moved?.kind !== 'circle' || moved.rim === undefined) throw new Error('no circle through places');
    expect(moved.rim[0]).toEqual(drawn.rim[0]);
    expect(moved.radius).not.toBe(drawn.radius);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('top')).toEqual([drawn]);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('top')).toEqual([]);
  });

  test('a shape shows on all frames where that is wanted, and is changed where it was drawn', async () => {
    await page.keyboard.press('b');
    await drag([120, 60], [220, 140]);
    const from = await at(120, 60);
    await page.getByText('Show on all frames').click();
    await expect.poll(() => shapesAt('top')).toMatchObject([{ kind: 'box', role: null, carried: true }]);
    // Let go of it, then put the tool away.
    await page.keyboard.press('Escape');
    await page.keyboard.press('Escape');
    await page.keyboard.press('.');
    await page.getByText('Exact picture').waitFor();
    await page.mouse.click(from.x, from.y);
    await page.getByText(/^This shape was drawn on top, frame \d+\. It is changed there\.$/).waitFor();
    await page.getByRole('button', { name: 'Go there', exact: true }).click();
    await page.getByText('Exact picture').waitFor();
    await page.mouse.click(from.x, from.y);
    await page.getByRole('heading', { name: 'Box' }).waitFor();
  });

  test('a box drawn at address becomes the head box, and is drawn on the frame of top too', async () => {
    await goTo('Address');
    const before = await shapesAt('address');
    await page.keyboard.press('b');
    await drag([260, 60], [330, 130]);
    await page.getByText('This is the head box').click();
    await expect
      .poll(async () => (await shapesAt('address')).at(-1))
      .toMatchObject({ role: 'head-box', carried: true });
    const boxes = (await shapesAt('address')).filter((shape) => shape.kind === 'box' && shape.role === 'head-box');
    expect(boxes).toHaveLength(1);
    await goTo('Top');
    const edge = await at(260, 95);
    await expect.poll(() => isDrawnAt(edge)).toBe(true);
    expect(await isDrawnAt(await at(295, 95))).toBe(false);
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('address')).toEqual(before);
    await goTo('Top');
    await expect.poll(() => isDrawnAt(edge)).toBe(false);
  });

  /** Whether the canvas above the picture has anything within 2 CSS pixels of a place of the page. */
  async function isDrawnAt({ x, y }: { readonly x: number; readonly y: number }): Promise<boolean> {
    return page.locator('[role="application"] canvas.lower-canvas').evaluate(
      (canvas, [left, top]) => {
        if (!(canvas instanceof HTMLCanvasElement)) throw new Error('no canvas above the picture');
        const box = canvas.getBoundingClientRect();
        const ratio = canvas.width / box.width;
        const at = [(left - box.left - 2) * ratio, (top - box.top - 2) * ratio] as const;
        const data = canvas.getContext('2d')?.getImageData(...at, 4 * ratio, 4 * ratio).data ?? [];
        return data.some((value, place) => place % 4 === 3 && value > 0);
      },
      [x, y] as const,
    );
  }

  test('the shapes of a frame go to another of its clip to the last bit, but for what shows there already', async () => {
    await goTo('Address');
    const [address, top] = [await shapesAt('address'), await shapesAt('top')];
    await page.getByLabel("Copy this frame's shapes").selectOption({ label: 'to Top' });
    await page.getByText(/^Copied \d+ shapes? to Top\.$/).waitFor();
    const copies = (await shapesAt('top')).slice(top.length);
    const wanted = address.filter(({ carried }) => carried !== true);
    expect(wanted.length).toBeGreaterThan(0);
    expect(copies.map((shape) => ({ ...shape, id: '' }))).toEqual(wanted.map((shape) => ({ ...shape, id: '' })));
    expect(copies.filter(({ id }) => address.some((shape) => shape.id === id))).toEqual([]);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('top')).toEqual(top);
  });

  test('the shapes of then come over by ball and feet, as one edit', async () => {
    await goTo('Address');
    const before = await shapesAt('address');
    await page.getByLabel('Copy shapes here').selectOption({ label: 'from Then, address' });
    await page.getByText(/^Copied \d+ shapes from Then, address, lined up on the ball and feet\.$/).waitFor();
    const after = await shapesAt('address');
    const then = await readSwing(demo.ids.then);
    const now = await readSwing();
    const carrying = carryingBetween(
      { clip: faceOn(then), handedness: then.lesson.handedness },
      { clip: faceOn(now), handedness: now.lesson.handedness },
    );
    const expected = (marksAt(faceOn(then), 'address')?.shapes ?? []).map((shape) => carriedShape(shape, carrying, ''));
    const copies = after.slice(before.length).map((shape) => ({ ...shape, id: '' }));
    expect(copies).toEqual(expected);
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('address')).toEqual(before);
  });

  test('a free line goes where the pointer went', async () => {
    await page.keyboard.press('d');
    const [from, over, to] = [await at(100, 300), await at(140, 280), await at(180, 310)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(over.x, over.y, { steps: 3 });
    await page.mouse.move(to.x, to.y, { steps: 3 });
    await page.mouse.up();
    const drawn = (await shapesAt('address')).at(-1);
    expect(drawn?.kind === 'free' ? drawn.places.length : 0).toBeGreaterThan(4);
    await page.keyboard.press('Control+z');
  });

  test('two arrows are drawn without taking the tool again; the second looks as the first was made to look', async () => {
    const before = await shapesAt('address');
    await page.keyboard.press('w');
    await drag([100, 300], [160, 280]);
    await button('pink').click();
    await button('thick line').click();
    await drag([100, 340], [160, 330]);
    const look = { kind: 'arrow', colour: 'pink', thickness: 'thick' };
    await expect.poll(async () => (await shapesAt('address')).slice(before.length)).toMatchObject([look, look]);
    // A handle of the one that was drawn last is set right meanwhile.
    await drag([160, 330], [180, 345]);
    await expect.poll(async () => (await shapesAt('address')).length).toBe(before.length + 2);
    expect(await page.getByRole('button', { name: 'Arrow', exact: true }).getAttribute('aria-pressed')).toBe('true');
    for (let undone = 0; undone < 5; undone += 1) await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('address')).toEqual(before);
  });

  test('a text is clicked where it belongs, typed, and taken back', async () => {
    const before = await shapesAt('address');
    await page.keyboard.press('x');
    await click(200, 320);
    await page.getByLabel('Words on the picture').fill('Weight here');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await shapesAt('address')).at(-1))
      .toMatchObject({ kind: 'text', words: 'Weight here' });
    await stage().focus();
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Control+z');
    await expect.poll(() => shapesAt('address')).toEqual(before);
    await page.keyboard.press('Escape');
    await page.keyboard.press('m');
  });

  test('from 16x on the pixels of the picture are squares with a thin grid between them', async () => {
    const zoom = page.getByLabel(/^Zoom \d/);
    const zoomNow = async () => Number((await zoom.getAttribute('aria-label'))?.replace('Zoom ', ''));
    for (let presses = 0; presses < 60 && (await zoomNow()) < 32; presses += 1) await button('Zoom in').click();
    expect(await zoomNow()).toBe(32);
    const row = await page.locator('[role="application"] canvas[data-shown]').evaluate((canvas) => {
      if (!(canvas instanceof HTMLCanvasElement)) throw new Error('no picture');
      const { zoom, left, top } = canvas.dataset;
      const ratio = canvas.width / canvas.clientWidth;
      const down =
        (Math.floor((canvas.clientHeight / 2 - Number(top)) / Number(zoom)) + 0.5) * Number(zoom) + Number(top);
      const data = canvas.getContext('2d')?.getImageData(0, Math.round(down * ratio), canvas.width, 1).data ?? [];
      return { zoom: Number(zoom) * ratio, left: Number(left) * ratio, width: canvas.width, data: [...data] };
    });
    const colour = (x: number) => row.data.slice(4 * x, 4 * x + 3);
    const { width } = faceOn(await readSwing());
    const edges = gridEdges(row.zoom, row.left, width, row.width);
    expect(edges.length).toBeGreaterThan(10);
    for (const [place, edge] of edges.slice(0, -1).entries()) {
      const next = edges[place + 1] ?? edge;
      for (let x = edge + 2; x < next; x += 1) expect(colour(x)).toEqual(colour(edge + 1));
      const beside = [colour(edge + 1), colour(Math.max(0, edge - 1))];
      const isGrid = beside.some((own) =>
        own.every((value, part) => Math.abs((colour(edge)[part] ?? -9) - (value + 128) / 2) <= 1.5),
      );
      expect(isGrid).toBe(true);
    }
    await button('Fit the player, or the whole picture').click();
  });

  test('the light of the picture is for the eye only: pixels, stills and numbers stay', async () => {
    const canvas = page.locator('[role="application"] canvas[data-shown]');
    const pixels = () =>
      canvas.evaluate((each) => {
        const context = each instanceof HTMLCanvasElement ? each.getContext('2d') : null;
        return [...(context?.getImageData(300, 100, 8, 8).data ?? [])];
      });
    // Pixel for pixel, so that nothing is smoothed on the way.
    await page.keyboard.press('0');
    const before = await pixels();
    await page.keyboard.press('i');
    await page.getByText('Brightness changed for the eye only').waitFor();
    expect(await canvas.evaluate((each) => getComputedStyle(each).filter)).toContain('lift-shadows');
    expect(await pixels()).toEqual(before);
    const lit = await saveStill('lit');
    await button('Brightness of the picture').click();
    await button('As filmed').click();
    await page.keyboard.press('Escape');
    await page.getByText('Brightness changed for the eye only').waitFor({ state: 'detached' });
    expect(await saveStill('plain')).toEqual(lit);
  });

  /** Saves stills and comes back; the files by what is in them. */
  async function saveStill(name: string): Promise<readonly string[]> {
    const stills = join(demo.folder, name);
    await mkdir(stills);
    await answerDialogs(demo.program.app, stills);
    if ((await stage().count()) > 0) await button(/Robin Larkham, .*Swing 1/).click();
    // One still says as much as six.
    for (const left of ['Top', 'Impact', 'Down the line']) {
      const tick = page.getByRole('complementary', { name: 'Save stills' }).getByLabel(left, { exact: true });
      if (await tick.isChecked()) await tick.locator('xpath=ancestor::label').click();
    }
    await button('Save stills').click();
    await page
      .getByRole('status')
      .getByText(/^Saved \d+ stills?/)
      .waitFor({ timeout: 120_000 });
    await page.getByRole('button', { name: 'Close' }).click();
    await open('Address');
    const files = (await readdir(stills)).filter((file) => file.endsWith('.jpg')).toSorted();
    return Promise.all(
      files.map(
        async (file) =>
          `${file} ${createHash('sha256')
            .update(await readFile(join(stills, file)))
            .digest('hex')}`,
      ),
    );
  }
});
