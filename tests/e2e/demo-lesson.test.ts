import { appendFile, copyFile, mkdir, readdir, readFile, rename, stat, truncate, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readSwingFile } from '../../core/swing-file/read-swing-file.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { makeGreyClip } from '../support/grey-clip.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs, ask, pressOnceThere } from './page-hands.ts';

/** What a coach does with two lessons of one student, in the real window, on the demo book (made once). */
describe('then and now', () => {
  let demo: DemoProgram;
  let page: Page;

  beforeAll(async () => {
    demo = await openDemoProgram('demo-lesson');
    page = demo.page;
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });

  test('the book of two lessons is open to everyone', async () => {
    await page.getByText('12 May 2026, 7 iron').waitFor();
    expect(await seriousViolations(demo.program.app)).toEqual([]);
  });

  test('what changed in the scene is called changed, and the sheet is open to everyone', async () => {
    await demo.openSwing();
    await page.getByLabel(/Compare with an earlier swing/).selectOption({ label: '14 April 2026, 7 iron, Swing 1' });
    await button('Open Top, Down the line, on the bench').waitFor();
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    await button('Open Top, Down the line, on the bench').click();
    const reading = button(/^Shoulders to spine/).first();
    await reading.waitFor();
    // The scene's shoulders turn 15 degrees flatter then than now.
    expect(await reading.innerText()).toMatch(/Then\s+10\d° ± \d°\s+Now\s+(8|9)\d° ± \d°/);
    expect(await reading.innerText()).toMatch(/−1[3-6]° ± \d+°: changed/);
  });

  test('the bench is open to everyone, in the light and in the dark', async () => {
    await page.getByText('Exact picture').waitFor();
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await seriousViolations(demo.program.app)).toEqual([]);
    }
    await page.emulateMedia({ colorScheme: 'light' });
  });

  /** The picture place under a place of the screen, by the end of a line drawn from there and taken back. */
  async function placeUnder(x: number, y: number): Promise<{ x: number; y: number }> {
    await page.keyboard.press('l');
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 40, y, { steps: 2 });
    await page.mouse.up();
    const { clips } = await demo.readSwing();
    const top = clips[0]?.marks.find((marks) => marks.frame.index === clips[0]?.checkpoints.top?.index);
    const drawn = top?.shapes.at(-1);
    if (drawn?.kind !== 'line') throw new Error('no line was drawn');
    await page.keyboard.press('Control+z');
    await page.keyboard.press('Escape');
    await page.keyboard.press('m');
    return drawn.a;
  }

  test('space and the middle button move the picture, and the marks with it', async () => {
    const stage = page.getByRole('application');
    await stage.focus();
    for (let press = 0; press < 4; press++) await page.keyboard.press('+');
    const box = await stage.boundingBox();
    if (box === null) throw new Error('the bench is not in sight');
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const zoom = Number((await page.getByLabel(/^Zoom \d/).innerText()).replace('×', ''));
    const first = await placeUnder(x, y);
    await page.mouse.move(x, y);
    await page.mouse.down({ button: 'middle' });
    await page.mouse.move(x + 60, y + 30, { steps: 3 });
    await page.mouse.up({ button: 'middle' });
    const second = await placeUnder(x, y);
    // The size is shown to three figures: half a unit of the third of 60 / zoom.
    within(first.x - second.x, 60 / zoom, 0.3);
    within(first.y - second.y, 30 / zoom, 0.3);
    await page.keyboard.down('Space');
    await page.mouse.move(x + 60, y + 30);
    await page.mouse.down();
    await page.mouse.move(x, y, { steps: 3 });
    await page.mouse.up();
    await page.keyboard.up('Space');
    const third = await placeUnder(x, y);
    within(third.x, first.x, 1e-6);
    within(third.y, first.y, 1e-6);
    // Nothing of this has touched what is marked.
    expect(await button('Undo').isDisabled()).toBe(true);
    await page.keyboard.press('f');
  });

  test('stills of then and now are saved, one for each view and checkpoint', async () => {
    await button(/Robin Larkham, .*Swing 1/).click();
    const stills = join(demo.folder, 'stills');
    await mkdir(stills);
    await answerDialogs(demo.program.app, stills);
    await button('Save stills').click();
    const said = page.getByRole('status').getByText(/^Saved 6 stills in /);
    await said.waitFor({ timeout: 120_000 });
    const names = (await readdir(stills)).filter((name) => name.endsWith('.jpg'));
    expect(names.toSorted()).toEqual(
      ['down-the-line', 'face-on'].flatMap((view) =>
        ['address', 'impact', 'top'].map((checkpoint) => `Robin-2026-05-12-${view}-then-now-${checkpoint}-phone.jpg`),
      ),
    );
    for (const name of names) expect((await stat(join(stills, name))).size).toBeLessThan(1_000_000);
    for (const name of names)
      expect(await readFile(join(stills, `${name}.txt`), 'utf8')).toMatch(/^.+\.\nPicture then: /);

    await button(/^Copy still: Top, Down the line/).click();
    await page.getByRole('status').getByText('Copied the still of top, down the line.').waitFor();
    expect(await picturePasted(demo.program.app)).toEqual({ width: 1080, height: 1350 });
    await button('Copy text: Top, Down the line').click();
    const text = await readFile(join(stills, 'Robin-2026-05-12-down-the-line-then-now-top-phone.jpg.txt'), 'utf8');
    await expect.poll(() => demo.program.app.evaluate(({ clipboard }) => clipboard.readText())).toBe(text);
    // What was said of it stays on its screen: neither the bench nor the sheet after it says it again.
    await demo.openCell('Top');
    expect(await said.count()).toBe(0);
    await button(/^Lesson sheet: /).click();
    await button('Save stills').waitFor();
    expect(await said.count()).toBe(0);
  });

  test('the swing is written as a file that others can read', async () => {
    const path = join(demo.folder, 'now.json');
    await answerDialogs(demo.program.app, path);
    await button('Export swing').click();
    await page.getByText(/Wrote the swing to/).waitFor();
    const { swing } = await readSwingFile(path);
    expect(swing).toMatchObject({ student: { firstName: 'Robin' }, lesson: { club: '7 iron' } });
    expect(swing.clips.map(({ view, marks }) => [view, marks.length])).toEqual([
      ['down-the-line', 8],
      ['face-on', 8],
    ]);
  });

  test('a clip is dropped on the window, its import is stopped, and nothing of it stays', async () => {
    await button('Students').click();
    await button('Add a swing').first().click();
    const media = join(demo.folder, 'book', 'media');
    const before = (await readdir(media)).toSorted();
    const long = join(demo.folder, 'long.mp4');
    await copyFile(join(media, before[0] ?? ''), long);
    await pad(long, 40_000_000);
    await dropOn(button('Add a clip, face on'), long);
    const cancelled = await pressOnceThere(page, 'Cancel: Reading');
    await button('Add clip').click();
    await cancelled();
    await button(/^Cancel: /).waitFor({ state: 'detached' });
    await button('Add a clip, face on').waitFor();
    expect((await readdir(media)).toSorted()).toEqual(before);
  });

  test.each([
    ['empty.mp4', ''],
    ['list.mp4', '#EXTM3U\n#EXTINF:10,\n/etc/hostname\n#EXT-X-ENDLIST\n'],
  ])('%s is refused in one sentence, and the window goes on', async (name, content) => {
    const path = join(demo.folder, name);
    await writeFile(path, content);
    await dropOn(button('Add a clip, face on'), path);
    const dialog = page.getByRole('dialog', { name: 'Add a clip' });
    expect(await dialog.getByRole('alert').innerText()).toMatch(/^This file [^\n]{20,}\.$/);
    await dialog.getByRole('button', { name: 'Cancel' }).click();
  });

  test('a clip of one frame comes in and opens on the bench', async () => {
    const path = join(demo.folder, 'one.mp4');
    await makeGreyClip({ ffmpeg: await findFfmpeg(), out: path, frames: 1 });
    await dropOn(button('Add a clip, face on'), path);
    await page.getByText('Leave it where it is').click();
    await button('Add clip').click();
    await button('Open clip, Face on').click();
    await page.getByText(/^frame 0 of 0,/).waitFor();
    await page.getByText('Exact picture').waitFor();
  });

  test('the same clip is refused for the other view, in one sentence', async () => {
    await button(/Robin Larkham, .*Swing 2/).click();
    await dropOn(button('Add a clip, down the line'), join(demo.folder, 'one.mp4'));
    await button('Add clip').click();
    await page
      .getByRole('alert')
      .getByText(/in this swing already/)
      .waitFor();
    await page.getByRole('alert').getByRole('button', { name: 'Close' }).click();
  });

  test('without a capture rate times are those of the screen, and the ratio stays', async () => {
    await button('Students').click();
    await demo.openSwing();
    await button('More about the clip now-down-the-line.mp4').click();
    await button('Change the real rate').click();
    await button(/^I do not know/).click();
    await button('Open Impact, Down the line, on the bench').click();
    await button(/^Downswing/)
      .first()
      .waitFor();
    // By hand, ms of a clip of 120 a second: half a frame and a frame / sqrt(12) at both ends, and 10 at the top.
    // sqrt(2 x (4.2^2 + 2.4^2) + 10^2) = 12.1, times 1.96 = 24.
    expect(
      await button(/^Downswing/)
        .first()
        .innerText(),
    ).toMatch(/0\.258 ± 0\.024 s on screen/);
    expect(
      await button(/^Tempo from takeaway/)
        .first()
        .innerText(),
    ).toMatch(/1\.94 ± 0\.29/);
  });

  /** Drops a real file of the disk on a place, as the coach's hand would. */
  /** Puts so many bytes behind a clip, in a box that players pass over, so that its import lasts until it is stopped. */
  async function pad(path: string, bytes: number): Promise<void> {
    const { size } = await stat(path);
    const head = Buffer.from('0000free');
    head.writeUInt32BE(bytes);
    await appendFile(path, head);
    await truncate(path, size + bytes);
  }
  async function dropOn(place: Locator, path: string): Promise<void> {
    await page.evaluate(() => {
      const input = document.createElement('input');
      input.type = 'file';
      input.id = 'test-file';
      input.hidden = true;
      document.body.append(input);
    });
    await page.setInputFiles('#test-file', path);
    const transfer = await page.evaluateHandle(() => {
      const input = document.querySelector<HTMLInputElement>('#test-file');
      const transfer = new DataTransfer();
      const file = input?.files?.[0];
      if (file !== undefined) transfer.items.add(file);
      input?.remove();
      return transfer;
    });
    await place.dispatchEvent('drop', { dataTransfer: transfer });
  }

  test('after closing and opening both swings are as they were', async () => {
    const before = await ask(page, 'student/list', null);
    const swings = before.flatMap(({ lessons }) =>
      lessons.flatMap(({ swings }) => swings.map(({ swing }) => swing.id)),
    );
    const read = (): Promise<unknown[]> => Promise.all(swings.map((id) => ask(page, 'swing/open', { id })));
    const whole = await read();
    await demo.restart();
    page = demo.page;
    expect(await ask(page, 'student/list', null)).toEqual(before);
    expect(await read()).toEqual(whole);
  });

  test('a clip that was moved away is asked for, and found again', async () => {
    const moved = join(demo.folder, 'elsewhere.mp4');
    await rename(join(demo.folder, 'one.mp4'), moved);
    await button(/^Swing 2 face on/).click();
    await button('Open clip, Face on').click();
    await page
      .getByText(/is not at .*one\.mp4 any more/)
      .first()
      .waitFor();
    await answerDialogs(demo.program.app, moved);
    await button('Find the file again').click();
    await page.getByText('Exact picture').waitFor();
  });
});

/** The size of the picture on the clipboard; both calls of Electron's clipboard are known (electron/system-clipboard.ts). */
function picturePasted(app: DemoProgram['program']['app']): Promise<{ width: number; height: number }> {
  return app.evaluate(async ({ clipboard, nativeImage }) => {
    const either: object = clipboard;
    if ('readImage' in either && typeof either.readImage === 'function')
      return (either.readImage as () => Electron.NativeImage)().getSize();
    const [item] = await clipboard.read();
    const picture = await item?.getType('image/png');
    return nativeImage.createFromBuffer(Buffer.from((await picture?.arrayBuffer()) ?? new ArrayBuffer(0))).getSize();
  });
}
