import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { hashFile } from '../../core/files/hash-file.ts';
import { writeSwingFile } from '../../core/swing-file/write-swing-file.ts';
import { findFfmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import { drawn } from '../support/drawn.ts';
import { GOLF_FRAMES, golfSwingFile } from '../support/golf-swing.ts';
import { describeOn, outsideMedia } from '../support/outside-media.ts';
import { runBaybook } from '../support/run-baybook.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { within } from '../support/within.ts';

/** The command as a coach runs it, on the real swing clip and on what is not a clip. */

const GOLF = 'golf/down-the-line-slow.mp4';

async function golfSwing(folder: string, clip: string): Promise<string> {
  const ffmpeg = await findFfmpeg();
  const index = await readClipIndex(clip, { ffmpeg });
  const path = join(folder, 'swing.json');
  await writeSwingFile(path, golfSwingFile(clip, (await hashFile(clip)).sha256, index));
  return path;
}

/** The brightest grey level in a square of the picture. */
function brightest(path: string, left: number, top: number, size: number): number {
  const { width, data } = PNG.sync.read(readFileSync(path));
  let most = 0;
  for (let y = top; y < top + size; y++)
    for (let x = left; x < left + size; x++) {
      const at = (y * width + x) * 4;
      most = Math.max(most, ((data[at] ?? 0) + (data[at + 1] ?? 0) + (data[at + 2] ?? 0)) / 3);
    }
  return most;
}

describeOn(GOLF)('the real swing clip', () => {
  let clip = '';
  beforeAll(() => {
    clip = outsideMedia(GOLF);
  });

  it('has its frames listed', async () => {
    const { code, out } = await runBaybook(['frames', clip, '--json']);
    const answer: unknown = JSON.parse(out);
    expect(code).toBe(0);
    expect(answer).toMatchObject({ width: 354, height: 492, count: 264, turn: 0, sound: true, captureRate: null });
  });

  it('shows the ball at rest on frame 143 and gone on 144 (labels by eye, its manifest)', async () => {
    const folder = temporaryFolder();
    const ball = async (...which: string[]): Promise<number> => {
      const path = join(folder, `${which.join('')}.png`);
      expect(await runBaybook(['still', clip, ...which, '--out', path])).toMatchObject({ code: 0, said: '' });
      return brightest(path, 310, 428, 24);
    };
    // A white ball on grass: above 230 while it lies there.
    expect(await ball('--index', '143')).toBeGreaterThan(230);
    expect(await ball('--index', '144')).toBeLessThan(200);
    // 4.805 s is the first moment of frame 144; a hundredth before it 143 is still on screen.
    expect(await ball('--at', '4.795')).toBeGreaterThan(230);
    expect(await ball('--at', '4.806')).toBeLessThan(200);
  });

  it('is read: a plausible posture, a shoulder turn, and no seconds while the capture rate is unknown', async () => {
    const folder = temporaryFolder();
    const { code, out } = await runBaybook(['read', await golfSwing(folder, clip), '--json']);
    expect(code).toBe(0);
    const { readings } = JSON.parse(out) as {
      readings: { id: string; checkpoint: string; state: string; value: number }[];
    };
    const value = (id: string, checkpoint: string): number => {
      const found = readings.find((one) => one.id === id && one.checkpoint === checkpoint && one.state === 'measured');
      if (found === undefined) throw new Error(`no ${id} at ${checkpoint}`);
      return found.value;
    };
    // By hand from the points: atan2(187 - 101, 282 - 183) and atan2(457 - 316, 336 - 183).
    within(value('back-incline', 'address'), 40.98, 0.01);
    within(value('shaft-incline', 'address'), 42.66, 0.01);
    // Arms (-72, -23) and (86, -99): acos(-3915 / (75.584 * 131.137)).
    within(value('shoulder-to-spine', 'top'), 113.3, 0.2);
    for (const { state, value: number } of readings)
      if (state === 'measured') expect(Number.isFinite(number)).toBe(true);
  });

  it('becomes stills that are never overwritten, those for mail under 1 MB', async () => {
    const folder = temporaryFolder();
    const swing = await golfSwing(folder, clip);
    const stills = join(folder, 'stills');
    const again = drawn(['png', 'jpeg']);
    for (const format of ['png', 'jpeg', ...again]) {
      const { code, said } = await runBaybook(['sheet', swing, '--out', stills, '--format', format]);
      expect({ code, said: said.includes(' at ') }).toEqual({ code: 0, said: false });
    }
    const all = readdirSync(stills).sort();
    const names = all.filter((name) => !name.endsWith('.txt'));
    expect(all.filter((name) => name.endsWith('.txt'))).toEqual(names.map((name) => `${name}.txt`));
    const base = names.find((name) => !/-2\.\w+$/.test(name))?.replace(/\.\w+$/, '');
    const ends = ['.jpg', '.png', ...again.map((format) => (format === 'png' ? '-2.png' : '-2.jpg'))];
    expect(names).toEqual(ends.sort().map((end) => `${base}${end}`));
    for (const name of names) {
      expect(name).toContain('Ines-2026-06-02-down-the-line');
    }
    for (const name of names.filter((each) => each.endsWith('.jpg')))
      expect(statSync(join(stills, name)).size).toBeLessThan(1_000_000);
    expect(Object.keys(GOLF_FRAMES).every((checkpoint) => names[0]?.includes(checkpoint))).toBe(true);
  });

  it('says what to do when the clip has been moved or is another one', async () => {
    const folder = temporaryFolder();
    const copy = join(folder, 'copy.mp4');
    copyFileSync(clip, copy);
    const swing = await golfSwing(folder, copy);
    writeFileSync(copy, 'another film');
    const changed = await runBaybook(['sheet', swing, '--out', join(folder, 'stills'), '--json']);
    expect({ code: changed.code, answer: JSON.parse(changed.out) as unknown }).toMatchObject({
      code: 2,
      answer: { error: { code: 'clip-changed' } },
    });
    expect(existsSync(join(folder, 'stills'))).toBe(false);
  });
});

describe('what is not a clip', () => {
  it.each([
    ['an empty file', 'empty.mp4', '', 'file-empty'],
    ['text', 'notes.mp4', 'Lesson notes: shoulders, then hips.\n'.repeat(100), 'not-a-clip'],
    ['a playlist', 'list.mp4', '#EXTM3U\n#EXTINF:10,\n/etc/hostname\n#EXT-X-ENDLIST\n', 'not-a-clip'],
    ['a list of files', 'files.mp4', "ffconcat version 1.0\nfile '/etc/hostname'\n", 'not-a-clip'],
  ])('%s is refused in one sentence', async (_, name, content, expected) => {
    const path = join(temporaryFolder(), name);
    writeFileSync(path, content);
    for (const argv of [
      ['frames', path, '--json'],
      ['still', path, '--index', '0', '--out', `${path}.png`, '--json'],
    ]) {
      const { code, out, said } = await runBaybook(argv);
      const answer = JSON.parse(out) as { error: { code: string; message: string } };
      expect({ code, error: answer.error.code }).toEqual({
        code: 2,
        error: expect.stringMatching(`${expected}|format-refused`),
      });
      expect(said.trim().split('\n')).toEqual([answer.error.message]);
    }
    expect(existsSync(`${path}.png`)).toBe(false);
  });

  it('a folder and a missing file too', async () => {
    const folder = temporaryFolder();
    for (const path of [folder, join(folder, 'none.mp4')]) {
      const { code, said } = await runBaybook(['frames', path]);
      expect({ code, lines: said.trim().split('\n').length }).toEqual({ code: 2, lines: 1 });
    }
  });
});

describe('the demo', () => {
  it('leaves a folder that is not empty alone', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'lessons'));
    const { code, said } = await runBaybook(['demo', '--out', folder]);
    expect({ code, said }).toMatchObject({ code: 2, said: expect.stringContaining('is not empty') });
    expect(readdirSync(folder)).toEqual(['lessons']);
  });

  it('stops on Ctrl+C with a sentence and no half clip', async () => {
    const folder = join(temporaryFolder(), 'demo');
    const { code, said } = await runBaybook(['demo', '--out', folder], /Painting the demo swings: 0 %/);
    expect(code).toBe(2);
    expect(said).not.toContain('    at ');
    expect(readdirSync(join(folder, 'clips'))).toEqual([]);
  });
});
