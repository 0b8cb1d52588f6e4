import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBook } from '../../core/book/open-book.ts';
import { importClip } from '../../core/jobs/import-clip.ts';
import { UNWATCHED } from '../../core/jobs/job-context.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { readStill } from '../../core/video/decode/read-still.ts';
import { ffmpegNow, makeCodedClip } from '../support/coded-clip.ts';
import { readCode } from '../support/coded-picture.ts';
import { drawn } from '../support/drawn.ts';
import { seeded } from '../support/seeded.ts';
import { colourAt } from '../support/still-pixels.ts';
import { within } from '../support/within.ts';
import { launchBaybook } from './launch.ts';
import type { RunningBaybook } from './launch.ts';

/** The pixels that the bench's canvas really shows, in the real window, from the real frame server. */

const ffmpeg = await findFfmpeg();
const work = mkdtempSync(join(tmpdir(), 'baybook-frames-'));
const FRAMES = 400;
const CODED = join(work, 'coded.mp4');
/** Colours far from grey, where a wrong matrix or range shows. */
const COLOURS = ['0xc83c28', '0x28a03c', '0x1e3cc8', '0xfaf00a', '0x808080', '0x101010'];
const SDR_KINDS = [
  ['BT.709, limited range', 'bt709', 'tv', 'yuv420p', []],
  ['BT.601, limited range', 'smpte170m', 'tv', 'yuv420p', []],
  ['BT.709, full range', 'bt709', 'pc', 'yuv420p', []],
  ['BT.601, full range', 'smpte170m', 'pc', 'yuv420p', []],
  ['BT.709, 10 bits', 'bt709', 'tv', 'yuv420p10le', []],
] as const;
const HDR_KINDS = [
  ['HDR (HLG)', 'bt2020nc', 'tv', 'yuv420p10le', ['arib-std-b67', 'bt2020']],
  ['HDR (PQ)', 'bt2020nc', 'tv', 'yuv420p10le', ['smpte2084', 'bt2020']],
] as const;
const KINDS = [...drawn(SDR_KINDS), ...drawn(HDR_KINDS)];
const fileOf = (name: string): string => join(work, `${name.replaceAll(/\W+/g, '-')}.mp4`);
let baybook: RunningBaybook;

beforeAll(async () => {
  makeCodedClip(ffmpeg, FRAMES, '120', ['-c:v', 'libx264', '-preset', 'fast', '-pix_fmt', 'yuv420p', CODED]);
  for (const [name, matrix, range, pixels, hdr] of KINDS) {
    const [transfer, primaries] = [hdr[0] ?? matrix, hdr[1] ?? matrix];
    const bars = COLOURS.map((colour) => `color=c=${colour}:s=106x360:r=30:d=0.4,format=gbrp[c${colour}]`);
    const joined = `${COLOURS.map((colour) => `[c${colour}]`).join('')}hstack=inputs=6`;
    const to = matrix === 'bt709' ? 'bt709' : matrix === 'bt2020nc' ? 'bt2020' : 'bt601';
    const filter = `${bars.join(';')};${joined},scale=out_color_matrix=${to}:out_range=${range},format=${pixels}`;
    const tags = ['-colorspace', matrix, '-color_primaries', primaries, '-color_trc', transfer, '-color_range', range];
    const coder = pixels === 'yuv420p' ? ['libx264', '-qp', '4'] : ['libx265', '-x265-params', 'qp=4:log-level=error'];
    ffmpegNow(ffmpeg, ['-filter_complex', filter, '-c:v', ...coder, ...tags, fileOf(name)]);
  }
  const bookFolder = join(work, 'book');
  const book = openBook(bookFolder);
  const student = book.addStudent({ firstName: 'Robin', lastName: 'Marsh', handedness: 'right' });
  const facts = { studentId: student.id, date: '2026-05-12', club: '7 iron', handedness: 'right', note: '' } as const;
  const lesson = book.addLesson(facts);
  for (const [label, path] of [['Coded', CODED], ...KINDS.map(([name]) => [name, fileOf(name)])] as const) {
    const { id } = book.addSwing({ lessonId: lesson.id, label: label ?? '' });
    const order = { swingId: id, view: 'face-on', path: path ?? '', stored: 'copied', span: null } as const;
    await importClip(book, order, ffmpeg, UNWATCHED);
  }
  book.close();
  baybook = await launchBaybook({ bookFolder, userData: join(work, 'settings') });
});

afterAll(async () => {
  await baybook.close();
  rmSync(work, { recursive: true, force: true });
});

async function openClip(swing: string): Promise<void> {
  const { window } = baybook;
  await window.getByRole('navigation').getByText('Students').click();
  await window.getByRole('button', { name: swing }).first().click();
  await window.getByRole('button', { name: /^Open clip/ }).click();
  await window.locator('canvas[data-quality="sharp"]').waitFor();
}

interface Seen {
  readonly quality: string;
  readonly width: number;
  readonly height: number;
  readonly data: readonly number[];
}

/** Goes to a frame and returns what the canvas shows of it, at first and when it is sharp: the picture alone, R, G, B, A. */
function goTo(frame: number, pictureWidth: number, pictureHeight: number): Promise<Seen[]> {
  return baybook.window.evaluate(
    async ([frame, pictureWidth, pictureHeight]) => {
      const canvas = document.querySelector<HTMLCanvasElement>('canvas[data-shown]');
      const slider = document.querySelector<HTMLInputElement>('input[type=range]');
      if (canvas === null || slider === null) throw new Error('no bench');
      const seen: { quality: string; width: number; height: number; data: number[] }[] = [];
      const done = new Promise<void>((resolve, reject) => {
        const look = (): void => {
          const { shown, quality = '', zoom, left, top } = canvas.dataset;
          if (shown !== String(frame) || seen.at(-1)?.quality === quality) return;
          // A grid of single pixels is enough, and does not carry megabytes out of the page.
          const [width, height] = [96, 64];
          const [wide, high] = [pictureWidth * Number(zoom), pictureHeight * Number(zoom)];
          const context = canvas.getContext('2d');
          const pixels = context?.getImageData(Number(left), Number(top), wide, high);
          const data: number[] = [];
          for (let y = 0; y < height; y += 1)
            for (let x = 0; x < width; x += 1) {
              const row = Math.floor(((y + 0.5) / height) * high);
              const at = (row * (pixels?.width ?? 0) + Math.floor(((x + 0.5) / width) * wide)) * 4;
              data.push(...(pixels?.data.subarray(at, at + 4) ?? []));
            }
          seen.push({ quality, width, height, data });
          if (quality === 'sharp') resolve();
        };
        new MutationObserver(look).observe(canvas, { attributes: true });
        setTimeout(() => reject(new Error(`frame ${String(frame)} did not come`)), 20_000);
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')?.set?.call(slider, String(frame));
        slider.dispatchEvent(new Event('input', { bubbles: true }));
      });
      await done;
      return seen;
    },
    [frame, pictureWidth, pictureHeight] as const,
  );
}

/** Process id of the frame server, or 0 while none runs. */
function frameServerOf(app: RunningBaybook['app']): Promise<number> {
  return app.evaluate(
    ({ app: electron }) =>
      electron.getAppMetrics().find(({ name, serviceName }) => `${name}${serviceName}`.includes('frames'))?.pid ?? 0,
  );
}

describe('what the bench shows', () => {
  it('is the right frame at every jump, small first and then sharp, while the copy is made and after', async () => {
    await openClip('Coded');
    const random = seeded(11);
    const frames = [FRAMES - 1, 1, 249, 250, 251, ...Array.from({ length: 12 }, () => Math.floor(random() * FRAMES))];
    for (const frame of frames)
      for (const { quality, width, height, data } of await goTo(frame, 192, 128))
        expect([quality, readCode({ width, height, data: Uint8Array.from(data), step: 4 })]).toEqual([quality, frame]);
  });

  it('goes on when the frame server dies', async () => {
    await openClip('Coded');
    const killed = await baybook.app.evaluate(({ app }) => {
      const server = app.getAppMetrics().find(({ name, serviceName }) => `${name}${serviceName}`.includes('frames'));
      if (server === undefined) return 0;
      process.kill(server.pid, 'SIGKILL');
      return server.pid;
    });
    expect(killed).toBeGreaterThan(0);
    const shown = await goTo(333, 192, 128);
    expect(
      readCode({
        ...(shown.at(-1) ?? { width: 0, height: 0 }),
        data: Uint8Array.from(shown.at(-1)?.data ?? []),
        step: 4,
      }),
    ).toBe(333);
  });

  it('passes no frame over while a key is held', async () => {
    await openClip('Coded');
    await goTo(100, 192, 128);
    await baybook.window.evaluate(() => {
      const shown: number[] = [];
      Object.assign(window, { shownFrames: shown });
      const canvas = document.querySelector<HTMLCanvasElement>('canvas[data-shown]');
      if (canvas !== null)
        new MutationObserver(() => {
          const frame = Number(canvas.dataset['shown']);
          if (shown.at(-1) !== frame) shown.push(frame);
        }).observe(canvas, { attributes: true, attributeFilter: ['data-shown'] });
    });
    const { keyboard } = baybook.window;
    await baybook.window.getByRole('application').focus();
    // Without `up` between them these are what a held key sends: the first press and its repeats.
    for (let press = 0; press < 60; press += 1) await keyboard.down('ArrowRight');
    await keyboard.up('ArrowRight');
    await baybook.window.waitForTimeout(500);
    const shown = await baybook.window.evaluate(() => (window as unknown as { shownFrames: number[] }).shownFrames);
    expect(shown.length).toBeGreaterThan(5);
    const run = shown.filter((frame) => frame > 100);
    expect(run).toEqual(run.map((_, place) => 101 + place));
  });
});

/** Red, green and blue. Two roundings of 8-bit 4:2:0. A wrong matrix or range is off by 20 and more. */
const SHARP_OFF = [2, 2, 2];
/** The small picture's coder, and Chromium's conversion, which keeps its factor for blue below the 2.11 of BT.709. */
const PROXY_OFF = [9, 9, 18];

describe("colours on the bench against ffmpeg's own R, G, B", () => {
  it.each(KINDS.map(([name]) => name))('%s', async (name) => {
    await openClip(name);
    const index = await readClipIndex(fileOf(name), { ffmpeg });
    const still = await readStill(fileOf(name), index, 7, { ffmpeg, as: 'rgba' });
    if (still === null) throw new Error('no still');
    for (const { quality, width, height, data } of await goTo(7, index.width, index.height))
      for (const place of COLOURS.keys()) {
        const across = (place + 0.5) / COLOURS.length;
        const wanted = colourAt({ ...still, step: 4 }, across, 0.5);
        const shown = colourAt({ width, height, data: Uint8Array.from(data), step: 4 }, across, 0.5);
        for (const [channel, value] of wanted.entries())
          within(
            shown[channel] ?? -1,
            value,
            (quality === 'sharp' ? SHARP_OFF : PROXY_OFF)[channel] ?? 0,
            `${name} ${quality} ${place}/${channel}`,
          );
      }
  });
});

describe('a frame server that keeps dying', () => {
  it('is told of, and pictures come again when the coach says so', async () => {
    // Anew: deaths of a minute count together.
    await baybook.close();
    baybook = await launchBaybook({ bookFolder: join(work, 'book'), userData: join(work, 'settings') });
    const { app, window } = baybook;
    await openClip('Coded');
    for (let death = 0; death < 5; death += 1) {
      await expect.poll(() => frameServerOf(app), { timeout: 20_000 }).not.toBe(0);
      const pid = await frameServerOf(app);
      process.kill(pid, 'SIGKILL');
      await expect.poll(() => frameServerOf(app), { timeout: 20_000 }).not.toBe(pid);
    }
    // Far from what was fetched ahead.
    await window.keyboard.press('End');
    const told = window.getByRole('alert');
    await told.getByText(/makes pictures of clips stopped several times/).waitFor();
    expect(await frameServerOf(app)).toBe(0);
    await told.getByRole('button', { name: 'Try again' }).click();
    await window.locator(`canvas[data-quality="sharp"][data-shown="${String(FRAMES - 1)}"]`).waitFor();
    const shown = (await goTo(17, 192, 128)).at(-1);
    const { width = 0, height = 0, data = [] } = shown ?? {};
    expect(readCode({ width, height, data: Uint8Array.from(data), step: 4 })).toBe(17);
  });
});
