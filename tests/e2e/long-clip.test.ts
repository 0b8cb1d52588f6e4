import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, readFile, readdir, rm, stat, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { BookClip } from '../../core/model/book.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { decodedCodes, makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import { withEdits } from '../support/edit-lists.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';
import { answerDialogs, ask, leaveBench } from './page-hands.ts';

const ffmpeg = await findFfmpeg();
/** 75 seconds at 30 a second, a key picture every second. */
const FRAMES = 2250;

/** A camera that was left running: the coach keeps the swing, or all of it, in the real dialog with the real hands. */
describe('a clip of 75 seconds', () => {
  let program: RunningBaybook;
  let page: Page;
  let folder: string;
  let path: string;
  /** While this file is there, no part is checked to its end. */
  let held: string;
  let before: { sha256: string; modified: number };

  const factsOf = async () => ({
    sha256: createHash('sha256')
      .update(await readFile(path))
      .digest('hex'),
    modified: (await stat(path)).mtimeMs,
  });
  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const from = (): Locator => page.getByLabel('From, seconds');
  const to = (): Locator => page.getByLabel('To, seconds');
  const keepOnly = (): Locator => page.getByRole('checkbox', { name: 'Keep only the swing' });

  async function clipsOfBook(): Promise<readonly BookClip[]> {
    const students = await ask(page, 'student/list', null);
    return (await ask(page, 'swing/open', { id: students[0]?.lessons[0]?.swings[0]?.swing.id ?? '' })).clips;
  }

  /** The number of the picture on the bench, once it shows that frame of the clip, sharp. */
  async function codeOnBench(frame: number): Promise<number> {
    const canvas = page.locator(`[role="application"] canvas[data-shown="${frame}"][data-quality="sharp"]`);
    const data = await canvas.evaluate((element: HTMLCanvasElement) => {
      const { zoom, left, top } = element.dataset;
      const scale = (element.width / element.clientWidth) * Number(zoom);
      const [x, y] = [(Number(left) * scale) / Number(zoom), (Number(top) * scale) / Number(zoom)];
      // As small as it was: a test takes its time over large pictures.
      const small = new OffscreenCanvas(192, 128).getContext('2d');
      small?.drawImage(element, x, y, 192 * scale, 128 * scale, 0, 0, 192, 128);
      return [...(small?.getImageData(0, 0, 192, 128).data ?? [])];
    });
    return readCode({ width: 192, height: 128, data: Uint8Array.from(data), step: 4 });
  }

  /** An ffmpeg that makes no first picture, so that one that shows comes from the window's own decoder. */
  async function withoutSmallPictures(): Promise<string> {
    const script = join(folder, 'ffmpeg');
    const lines = [
      '#!/bin/sh',
      'case "$*" in *mjpeg*) exit 1;; esac',
      // The check of a part that is kept takes until the test lets it go on.
      `case "$*" in *framehash*) while [ -e '${held}' ]; do sleep 0.05; done;; esac`,
      `exec ${ffmpeg.path} "$@"`,
      '',
    ];
    await writeFile(script, lines.join('\n'), { mode: 0o755 });
    return script;
  }

  /** The number that the picture under this name carries. */
  async function codeShown(name: string): Promise<number> {
    const canvas = page.locator(`canvas[aria-label="${name}"][data-shown="0"]`);
    const { width, height, data } = await canvas.evaluate((element: HTMLCanvasElement) => {
      const image = element.getContext('2d')?.getImageData(0, 0, element.width, element.height);
      if (image === undefined) throw new Error('nothing to read from');
      return { width: image.width, height: image.height, data: [...image.data] };
    });
    return readCode({ width, height, data: Uint8Array.from(data), step: 4 });
  }

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'baybook-long-'));
    path = join(folder, 'Bay 3, left running.mp4');
    held = join(folder, 'held');
    const args = ['-c:v', 'libx264', '-preset', 'ultrafast', '-pix_fmt', 'yuv420p', '-bf', '2', '-g', '30'];
    makeCodedClip(ffmpeg, FRAMES, '30', [...args, path]);
    before = await factsOf();
    program = await launchBaybook({
      bookFolder: join(folder, 'book'),
      environment: { BAYBOOK_FFMPEG: await withoutSmallPictures() },
    });
    page = program.window;
    page.setDefaultTimeout(20_000);
    await button('Add your first student').click();
    await page.getByLabel('First name').fill('Ada');
    await button('Add student').click();
    await button('Add a lesson').click();
    await button('Add lesson').click();
    await button(/Swing 1 no clip yet/).click();
  });
  afterAll(async () => {
    await program.close();
    await rm(folder, { recursive: true, force: true });
  });

  test('shows the first picture that its edit list shows, made by the window', async () => {
    const edited = join(folder, 'From the middle.mp4');
    await writeFile(edited, withEdits(await readFile(path), { pictures: [{ seconds: 70, media: 47 / 30 + 2 / 30 }] }));
    await answerDialogs(program.app, edited);
    await button('Add a clip, down the line').click();
    expect(await codeShown("The clip's first frame")).toBe(47);
    await page.keyboard.press('Escape');
  });

  test.each([
    ['BT.709', 'tv', '2'],
    ['BT.601', 'pc', '1'],
  ] as const)(
    'shows its first picture in its colours and as wide as it is meant, %s %s',
    async (matrix, range, wide) => {
      const one = join(folder, `One colour ${matrix}.mp4`);
      const [coded, tag] = matrix === 'BT.709' ? ['bt709', 'bt709'] : ['smpte170m', 'smpte170m'];
      const filter = `scale=out_color_matrix=${coded}:out_range=${range},format=yuv420p,setsar=${wide}`;
      const colour = ['-f', 'lavfi', '-i', 'color=0xE07020:s=362x402:r=30:d=35', '-vf', filter, '-c:v', 'libx264'];
      const tags = ['-colorspace', tag, '-color_primaries', tag, '-color_trc', tag, '-color_range', range];
      execFileSync(ffmpeg.path, ['-v', 'error', ...colour, ...tags, '-preset', 'ultrafast', one]);
      await answerDialogs(program.app, one);
      await button('Add a clip, down the line').click();
      const canvas = page.locator(`canvas[aria-label="The clip's first frame"][data-shown="0"]`);
      const shown = await canvas.evaluate((element: HTMLCanvasElement) => {
        const { width, height } = element;
        const pixel = element.getContext('2d')?.getImageData(width / 2, height / 2, 1, 1).data ?? [];
        return { shape: width / height, pixel: [...pixel].slice(0, 3) };
      });
      within(shown.shape, (362 * Number(wide)) / 402, 0.02);
      // One matrix taken for the other, or one range for the other, is at least 10 off in one of them.
      for (const [place, value] of [0xe0, 0x70, 0x20].entries()) within(shown.pixel[place] ?? -1, value, 5);
      await page.keyboard.press('Escape');
    },
  );

  test('is said to be long, and its last 8 seconds are offered', async () => {
    await answerDialogs(program.app, path);
    await button('Add a clip, down the line').click();
    expect(await codeShown("The clip's first frame")).toBe(0);
    await page.getByText(/^2,250 frames, 75\.0 s, 192 × 128, [\d.]+ [kM]B\. That is a long clip/).waitFor();
    expect(await keepOnly().isChecked()).toBe(true);
    expect([await from().inputValue(), await to().inputValue()]).toEqual(['67.000', '74.967']);
    await page.getByText('Keeps 8.00 s, 240 frames').waitFor();
    await page.getByText('The file you chose stays as it is and where it is.').waitFor();
    expect(await page.getByText('Leave it where it is').count()).toBe(0);
  });

  test('shows its first and its last picture, though they lie far apart', async () => {
    for (const [name, frame] of [
      ['First frame to keep', '2010'],
      ['Last frame to keep', '2249'],
    ] as const)
      await page.locator(`canvas[aria-label="${name}"][data-shown="${frame}"]`).waitFor({ timeout: 20_000 });
  });

  test('is open to everyone', async () => {
    expect(await seriousViolations(program.app)).toEqual([]);
  });

  test('offers all of it as well, copied or linked', async () => {
    await page.getByText('Keep only the swing').click();
    await page.getByText('Leave it where it is').waitFor();
    expect(await from().count()).toBe(0);
    await page.getByText('Keep only the swing').click();
  });

  test('takes the ends by typing, by the arrow keys and by dragging; neither passes the other', async () => {
    await from().fill('41.5');
    await from().press('Enter');
    await page.getByRole('heading', { name: 'Add a clip' }).waitFor();
    await to().fill('later');
    await to().press('Tab');
    expect(await to().inputValue()).toBe('74.967');
    await to().fill(' 43,9');
    await to().press('Tab');
    await page.getByText('Keeps 2.43 s, 73 frames').waitFor();
    await page.getByText('It begins 15 frames earlier; the clip can only be cut there.').waitFor();

    const first = page.getByRole('slider', { name: 'First frame to keep' });
    expect(await first.getAttribute('value')).toBe('1245');
    await first.focus();
    for (let press = 0; press < 5; press += 1) await page.keyboard.press('ArrowRight');
    expect(await from().inputValue()).toBe('41.667');
    await page.keyboard.press('End');
    expect(await from().inputValue()).toBe('43.900');
    await page.keyboard.press('Home');
    expect(await from().inputValue()).toBe('0.000');

    await from().fill('50');
    await from().press('Tab');
    expect(await from().inputValue()).toBe('43.900');
    await from().press('ArrowDown');
    expect(await from().inputValue()).toBe('43.867');
    await from().fill('41.5');
    await from().press('Tab');

    // Dragged with the mouse to the right end: all that follows is kept.
    const thumb = await page
      .getByRole('slider', { name: 'Last frame to keep' })
      .locator('xpath=ancestor::*[2]')
      .boundingBox();
    if (thumb === null) throw new Error('the thumb is not in sight');
    await page.mouse.move(thumb.x + thumb.width / 2, thumb.y + thumb.height / 2);
    await page.mouse.down();
    await page.mouse.move(thumb.x + 2000, thumb.y + thumb.height / 2, { steps: 5 });
    await page.mouse.up();
    expect(await to().inputValue()).toBe('74.967');
    await to().fill('43.9');
    await to().press('Tab');
    await page.getByText('Keeps 2.43 s, 73 frames').waitFor();
  });

  test('is on the bench as the swing alone before that is cut, and can be named and stepped through', async () => {
    await writeFile(held, '');
    await button('Add the swing').click();
    await button('Open clip, down the line').click();
    expect(await codeOnBench(0)).toBe(1230);
    for (let press = 0; press < 3; press += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('4');
    expect(await codeOnBench(3)).toBe(1233);
    const [clip] = await clipsOfBook();
    expect(clip).toMatchObject({ coming: true, kept: { first: 1230, of: FRAMES } });
    expect(await readdir(join(folder, 'book', 'media'))).toEqual([expect.stringMatching(/\.incoming$/)]);
  });

  test('comes in as the swing alone, under its own name, picture for picture', async () => {
    await rm(held);
    await page
      .getByText(/^Kept frames 1,230 to 1,31\d of the 2,250 of Bay 3, left running\.mp4\. They begin 15/)
      .waitFor();
    // The hand is where it was, and what it did is there.
    expect(await codeOnBench(3)).toBe(1233);
    const [clip] = await clipsOfBook();
    expect(clip?.checkpoints.top?.index).toBe(3);
    await page.keyboard.press('ArrowRight');
    expect(await codeOnBench(4)).toBe(1234);
    await leaveBench(page);
    expect(clip).toMatchObject({ originalName: 'Bay 3, left running.mp4', stored: 'copied' });
    expect(clip?.kept).toEqual({ first: 1230, of: FRAMES });
    const [file] = await readdir(join(folder, 'book', 'media'));
    const codes = decodedCodes(ffmpeg, join(folder, 'book', 'media', file ?? ''));
    expect(codes).toEqual(Array.from({ length: clip?.frameCount ?? 0 }, (_, at) => 1230 + at));
    expect(codes.at(-1)).toBeGreaterThanOrEqual(Math.round(43.9 * 30));

    await button(/^More about the clip/).click();
    await page.getByText(/Frames 1,230 to 1,31\d of the 2,250 of that file\./).waitFor();
    await button('Done').click();
    expect(await factsOf()).toEqual(before);
  });

  test('comes in whole when that is wanted', async () => {
    await button('Add a clip, face on').click();
    await page.getByText('Keep only the swing').click();
    await button('Add clip').click();
    await page.waitForFunction(() => document.querySelectorAll('[role="progressbar"]').length === 0);
    await expect.poll(async () => (await clipsOfBook()).length, { timeout: 20_000 }).toBe(2);
    const whole = (await clipsOfBook()).find(({ view }) => view === 'face-on');
    expect(whole).toMatchObject({ frameCount: FRAMES, kept: null, sha256: before.sha256 });
    expect(await factsOf()).toEqual(before);
  });
});
