import { spawnSync } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { tmpdir } from 'node:os';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { waveFile } from '../../core/files/wave-file.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { clapping, clapsIn } from '../support/claps.ts';
import { linesIn } from '../support/film-changes.ts';
import { sized } from '../support/sized.ts';
import { within } from '../support/within.ts';
import { seriousViolations } from './accessibility.ts';
import { drawWithClaps, listenToClaps } from './clapping.ts';
import { openDemoProgram } from './demo-program.ts';
import type { DemoProgram } from './demo-program.ts';
import { answerDialogs, ask } from './page-hands.ts';

/** The file that is the microphone has a clap so often. */
const EVERY_MS = 1500;
const CLAPS = sized(6, 76);
/** So long that it is not played from its beginning again: that takes a few milliseconds. */
const VOICE_MS = sized(60_000, 180_000);
/** One picture of the video: so far mark and clap may be apart. */
const FRAME_MS = 1000 / 30;

/** A talk-through from a press on the bench to the video: the microphone is a file with claps, and a hand draws with each. */
describe('a talk-through', () => {
  let demo: DemoProgram;
  let page: Page;
  let ffmpeg: Ffmpeg;

  beforeAll(async () => {
    ffmpeg = await findFfmpeg();
    const voice = join(tmpdir(), `baybook-claps-${String(process.pid)}.wav`);
    const claps = Array.from({ length: Math.floor(VOICE_MS / EVERY_MS) }, (_, clap) => 500 + clap * EVERY_MS);
    await writeFile(voice, waveFile(clapping(claps, VOICE_MS), 48_000));
    // Not with a made-up consent (--use-fake-ui-for-media-stream): that would ask nobody, and whoever asks must be refused.
    const chromium = ['--use-fake-device-for-media-stream', `--use-file-for-fake-audio-capture=${voice}`];
    demo = await openDemoProgram('talk', { chromium });
    page = demo.page;
  });
  afterAll(() => demo.close());

  const button = (name: string | RegExp): Locator => page.getByRole('button', { name });
  const look = async (name: string): Promise<void> => {
    const folder = process.env['BAYBOOK_PICTURES'];
    if (folder !== undefined) await demo.program.screenshot(join(folder, `${name}.png`));
  };
  /** What the page is answered that asks for a microphone or a camera. */
  const asking = (constraints: MediaStreamConstraints): Promise<string> =>
    page.evaluate(async (constraints) => {
      try {
        const stream = await navigator.mediaDevices.getUserMedia(constraints);
        for (const track of stream.getTracks()) track.stop();
        return 'given';
      } catch (error) {
        return error instanceof DOMException ? error.name : String(error);
      }
    }, constraints);

  test('no page may listen before it is recorded', async () => {
    expect(await asking({ audio: true })).toBe('NotAllowedError');
  });

  test('mark and clap are together in the video, at its start, in its middle and at its end', async () => {
    const out = join(demo.folder, 'talk.mp4');
    await answerDialogs(demo.program.app, out);
    await demo.openSwing();
    await demo.openCell('Top');
    // A frame without a name has no numbers that would make room for lines.
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByText('Exact picture').waitFor();
    await page.keyboard.press('l');
    await listenToClaps(page, EVERY_MS);
    const box = await page.getByRole('application').boundingBox();
    if (box === null) throw new Error('the bench is not in sight');
    await button('Record a talk-through').click();
    await page.getByText('Recording', { exact: true }).waitFor();
    expect(await asking({ video: true })).toBe('NotAllowedError');
    await look('talk-recording');
    const step = sized(40, 8);
    const place = { left: box.x + 0.2 * box.width, top: box.y + 0.3 * box.height, height: 0.3 * box.height, step };
    const clapped = await drawWithClaps(page, place, CLAPS);
    await page.waitForTimeout(500);
    await button('Stop recording').click();
    await button('Save video').waitFor();
    expect(await asking({ audio: true })).toBe('NotAllowedError');
    await look('talk-page');
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    await button('Save video').click();
    await page.getByText(/^Saved .*talk\.mp4\./).waitFor({ timeout: 150_000 });

    const probed = spawnSync('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', out]).stdout.toString();
    const { streams } = JSON.parse(probed) as { streams: Record<string, unknown>[] };
    expect(streams.slice(0, 2)).toMatchObject([
      { codec_name: 'h264', width: 1920, height: 1080, avg_frame_rate: '30/1' },
      { codec_name: 'aac', sample_rate: '48000' },
    ]);
    const claps = clapsIn(ffmpeg, out);
    const lines = linesIn(ffmpeg, out, { from: 0, to: (claps.at(-1) ?? 0) / 1000 + 0.4 });
    expect(lines).toHaveLength(clapped.length);
    for (const [number, line] of lines.entries()) {
      const apart = Math.min(...claps.map((clap) => Math.abs(clap - line)));
      within(apart, 0, FRAME_MS, `line ${String(number)} is seen with its clap`);
    }
  });

  test('of a recording that is killed (kill -9) all but the last second is there, and is offered', async () => {
    await button('Record on').click();
    await page.getByLabel('Recorded so far: 0:03').waitFor();
    demo.program.app.process().kill('SIGKILL');
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    const talk = await ask(page, 'talk/read', { swingId: demo.ids.now });
    expect(talk?.brokenOff?.take).toBe(1);
    expect(talk?.takes[1]?.length).toBeGreaterThan(2000);
    expect(talk?.takes[1]?.sound).not.toBeNull();
    await button('Talk-through').click();
    await page.getByText(/was cut short/).waitFor();
    await look('talk-cut-short');
    await button('Use it').click();
    await page.getByText(/was cut short/).waitFor({ state: 'detached' });
    const { talkEdits } = await demo.readSwing();
    expect(talkEdits).toEqual([{ kind: 'retake', from: talk?.brokenOff?.from, take: 1 }]);
  });
});
