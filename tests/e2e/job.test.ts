import { mkdir, mkdtemp, readdir, readFile, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { describeOn, outsideMedia } from '../support/outside-media.ts';
import { within } from '../support/within.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { answerDialogs, ask } from './page-hands.ts';

const CLIP = 'golf/down-the-line-slow.mp4';

/** Places on the clip's frame 72, by eye, in picture pixels; where exactly does not matter here. */
const TAILBONE = { x: 135.5, y: 250.25 };
const NECK = { x: 172.25, y: 160.5 };

/**
 * The whole job of a coach, from an empty book to a still in a folder, with a real mouse and real keys in the real window.
 * Only the system's own file dialogs, which no test can press, are answered for.
 */
describeOn(CLIP)('from a clip to a lesson still', () => {
  let program: RunningBaybook;
  let page: Page;
  let folder: string;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-job-'));
    program = await launchBaybook({ bookFolder: join(folder, 'book') });
    page = program.window;
    page.setDefaultTimeout(20_000);
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const stage = (): Locator => page.getByRole('application');

  /** What the book (not the window) holds of the open swing, read anew by a bridge call of its own. */
  async function readBook() {
    await page.getByText('All saved').waitFor();
    const students = await ask(page, 'student/list', null);
    return ask(page, 'swing/open', { id: students[0]?.lessons[0]?.swings[0]?.swing.id ?? '' });
  }

  /** The screen place of a picture place while the whole picture (354 x 492) is shown. */
  async function onScreen(at: { x: number; y: number }): Promise<{ x: number; y: number }> {
    const box = await stage().boundingBox();
    if (box === null) throw new Error('the bench is not in sight');
    const zoom = Math.min(box.width / 354, box.height / 492);
    return {
      x: box.x + (box.width - 354 * zoom) / 2 + at.x * zoom,
      y: box.y + (box.height - 492 * zoom) / 2 + at.y * zoom,
    };
  }

  async function press(at: { x: number; y: number }): Promise<void> {
    const place = await onScreen(at);
    await page.mouse.click(place.x, place.y);
  }

  async function goToFrame(index: number): Promise<void> {
    await page.getByLabel('Go to frame').fill(String(index));
    await page.getByLabel('Go to frame').press('Enter');
    await page.getByRole('application', { name: new RegExp(`frame ${String(index)} of 263.*exact`) }).waitFor();
  }

  test('an empty book offers a first step; a student and a lesson come in', async () => {
    await button('Look at a made-up student').waitFor();
    await button('Add your first student').click();
    await page.getByLabel('First name').fill('Ada');
    await button('Add student').click();
    await button('Add a lesson').click();
    await page.getByLabel('Note (for yourself)').fill('First look.');
    await button('Add lesson').click();
    await button(/Swing 1 no clip yet/).click();
    await page.getByText('Name at least one checkpoint first').waitFor();
  });

  test('a file that is no clip is refused in one sentence and the window goes on', async () => {
    const text = join(folder, 'notes.mp4');
    await writeFile(text, 'These are notes, not a clip.');
    await answerDialogs(program.app, text);
    await button('Add a clip, down the line').click();
    const dialog = page.getByRole('dialog', { name: 'Add a clip' });
    const said = await dialog.getByRole('alert').innerText();
    expect(said).toMatch(/^This file is not a clip that can be opened; choose /);
    await dialog.getByRole('button', { name: 'Choose another file' }).waitFor();
    await dialog.getByRole('button', { name: 'Cancel' }).click();
  });

  test('a clip comes in and its capture rate is asked for', async () => {
    await answerDialogs(program.app, outsideMedia(CLIP));
    await button('Add a clip, down the line').click();
    await button('Add clip').click();
    await button(/Say how fast it was filmed/).click();
    await page.getByText('The file does not say how many frames a second').waitFor();
    await button('240').click();
    await button('Use this rate').click();
    await button('More about the clip down-the-line-slow.mp4').click();
    await page.getByText(/264 frames, 240 fps\./).waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Done' }).click();
  });

  test('frames are stepped by keys and buttons, jumped to and scrubbed; number and time always stand there', async () => {
    await button('Open clip, Down the line').click();
    const frame = page.getByText(/^frame \d+ of 263, [\d.]+ s real time$/);
    await goToFrame(118);
    // The coach said 240 a second: 118 / 240 = 0.492 s, not the 118 * 1001 / 30000 = 3.937 s that it plays for.
    expect(await frame.innerText()).toBe('frame 118 of 263, 0.492 s real time');
    await stage().focus();
    for (const [key, expected] of [
      ['ArrowRight', 119],
      ['Shift+ArrowLeft', 109],
      ['End', 263],
      ['ArrowRight', 263],
      ['Home', 0],
    ] as const) {
      await page.keyboard.press(key);
      expect(await frame.innerText()).toContain(`frame ${String(expected)} of 263`);
    }
    await page.keyboard.press('Shift+ArrowRight');
    await button('One frame back').click();
    expect(await frame.innerText()).toContain('frame 9 of 263');
    await page.getByRole('slider', { name: 'Frame' }).fill('144');
    expect(await frame.innerText()).toContain('frame 144 of 263');
  });

  test('address, top and impact are named and stand in the book', async () => {
    for (const [checkpoint, index] of [
      ['address', 72],
      ['top', 118],
      ['impact', 144],
    ] as const) {
      await goToFrame(index);
      await page.getByLabel('This frame is').selectOption(checkpoint);
    }
    const { checkpoints } = (await readBook()).clips[0] ?? {};
    expect(Object.entries(checkpoints ?? {}).map(([name, { index }]) => [name, index])).toEqual([
      ['address', 72],
      ['top', 118],
      ['impact', 144],
    ]);
    await stage().focus();
    await page.keyboard.press('PageUp');
    await page.getByText('frame 118 of 263').waitFor();
  });

  test('body points are placed, nudged, taken back and made again; the book holds them', async () => {
    await goToFrame(72);
    await button('Body points').click();
    await button('Tailbone, not placed').click();
    await press(TAILBONE);
    await page.getByRole('button', { name: 'Tailbone, placed' }).waitFor();
    await page.keyboard.press('Control+ArrowRight');
    await page.keyboard.press('Control+Shift+ArrowDown');
    await page.keyboard.press('Escape');
    await button('Neck base, not placed').click();
    await press(NECK);
    await page.getByRole('button', { name: /^Back incline/ }).waitFor();
    const before = (await readBook()).clips[0]?.marks[0]?.points;
    // The hand presses on whole screen pixels, each less than one picture pixel here.
    within(before?.tailbone?.x ?? Number.NaN, TAILBONE.x + 1, 1);
    within(before?.tailbone?.y ?? Number.NaN, TAILBONE.y + 0.1, 1);

    await page.keyboard.press('Control+z');
    expect((await readBook()).clips[0]?.marks[0]?.points['neck-base']).toBeUndefined();
    await page.keyboard.press('Control+Shift+z');
    expect((await readBook()).clips[0]?.marks[0]?.points).toEqual(before);
  });

  test('shapes are drawn by the mouse, show their number, and Escape keeps nothing of a gesture', async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('l');
    const [from, to] = [await onScreen({ x: 60, y: 60 }), await onScreen({ x: 160, y: 60 })];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.keyboard.press('Escape');
    await page.mouse.up();
    expect((await readBook()).clips[0]?.marks[0]?.shapes).toEqual([]);

    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 4 });
    await page.mouse.up();
    await page
      .getByRole('region', { name: 'Selected mark' })
      .getByText(/incline 0\.?\d*° ± .*length 100/)
      .waitFor();
    await button('Plumb').click();
    expect((await readBook()).clips[0]?.marks[0]?.shapes[0]).toMatchObject({ kind: 'line', role: 'plumb' });
    await page.keyboard.press('Delete');
    expect((await readBook()).clips[0]?.marks[0]?.shapes).toEqual([]);
  });

  test('a mark dragged at eight times the size lands to a part of a pixel', async () => {
    await page.keyboard.press('m');
    const placed = (await readBook()).clips[0]?.marks[0]?.points.tailbone;
    const place = await onScreen(placed ?? TAILBONE);
    await page.mouse.move(place.x, place.y);
    for (let notch = 0; notch < 12; notch += 1) await page.mouse.wheel(0, -100);
    await page.mouse.down();
    await page.mouse.move(place.x + 8, place.y, { steps: 2 });
    await page.mouse.up();
    const zoom = Number((await page.getByLabel(/^Zoom \d/).innerText()).replace('×', ''));
    expect(zoom).toBeGreaterThan(8);
    const dragged = (await readBook()).clips[0]?.marks[0]?.points.tailbone;
    await page.keyboard.press('Control+z');
    const before = (await readBook()).clips[0]?.marks[0]?.points.tailbone;
    // The size is shown to three figures.
    within((dragged?.x ?? 0) - (before?.x ?? 0), 8 / zoom, 0.01);
    within((dragged?.y ?? 0) - (before?.y ?? 0), 0, 1e-9);
    await page.keyboard.press('Control+Shift+z');
    await page.keyboard.press('f');
  });

  test('stills are saved as JPEG and PNG; everything is there after closing and opening', async () => {
    await button(/Ada, .*Swing 1/).click();
    await button('Open Address, Down the line, on the bench').waitFor();
    const stills = join(folder, 'stills');
    await mkdir(stills);
    await answerDialogs(program.app, stills);
    await page.getByText('Mail', { exact: true }).click();
    await button('Save stills').click();
    await page
      .getByRole('status')
      .getByText(/Saved 1 still in/)
      .waitFor({ timeout: 60_000 });
    await page.getByText(/^PNG/).click();
    await button('Save stills').click();
    // A still that is being written stands beside the others under a name with a dot in front.
    const saved = async (): Promise<string[]> =>
      (await readdir(stills)).filter((name) => /^[^.].*\.(jpg|png)$/.test(name));
    await expect.poll(saved, { timeout: 60_000 }).toHaveLength(2);
    const [jpeg, png] = (await saved()).toSorted();
    expect((await readFile(join(stills, jpeg ?? ''))).subarray(0, 3)).toEqual(Buffer.from([0xff, 0xd8, 0xff]));
    expect((await readFile(join(stills, png ?? ''))).subarray(1, 4).toString()).toBe('PNG');
    expect((await stat(join(stills, jpeg ?? ''))).size).toBeLessThan(1_000_000);

    const before = await readBook();
    await program.close();
    program = await launchBaybook({ bookFolder: join(folder, 'book') });
    page = program.window;
    await button(/Swing 1 down the line/).click();
    await page.getByText('All saved').waitFor();
    expect(await readBook()).toEqual(before);
  });
});
