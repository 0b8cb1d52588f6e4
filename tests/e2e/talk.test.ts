import { spawnSync } from 'node:child_process';
import { rm, writeFile } from 'node:fs/promises';
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
import { answerDialogs, ask, draggedFile } from './page-hands.ts';

/** The file that is the microphone has a clap so often. */
const EVERY_MS = 1000;
/** At full length lines over two minutes, one with every fourth clap: more would lie too close to be told apart. */
const CLAPS = sized(4, 28);
const REST_MS = sized(0, 3000);
const RETAKEN = sized(2, 5);
/** So long that it is not played from its beginning again: that takes a few milliseconds. */
const VOICE_MS = sized(60_000, 180_000);
/** One picture of the video: so far mark and clap may be apart. */
const FRAME_MS = 1000 / 30;
/** The page's queue of sound: so far what is heard lies behind what a hand does with it. At full load it may be 100 ms: then this fails, and is run again alone. */
const QUEUE_MS = 12;

/** A talk-through from a press on the bench to the video: the microphone is a file with claps, and a hand draws with each. */
describe('a talk-through', () => {
  let demo: DemoProgram;
  let page: Page;
  let ffmpeg: Ffmpeg;
  const voice = join(tmpdir(), `baybook-claps-${String(process.pid)}.wav`);

  beforeAll(async () => {
    ffmpeg = await findFfmpeg();
    const claps = Array.from({ length: Math.floor(VOICE_MS / EVERY_MS) }, (_, clap) => 500 + clap * EVERY_MS);
    await writeFile(voice, waveFile(clapping(claps, VOICE_MS), 48_000));
    // Not with a made-up consent (--use-fake-ui-for-media-stream): that would ask nobody, and whoever asks must be refused.
    const chromium = ['--use-fake-device-for-media-stream', `--use-file-for-fake-audio-capture=${voice}`];
    demo = await openDemoProgram('talk', { chromium });
    page = demo.page;
  });
  afterAll(async () => {
    await demo.close();
    await rm(voice, { force: true });
  });

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

  /** Lines on the bench with so many claps from now on, from the left; the line tool is in hand. */
  async function draw(count: number): Promise<void> {
    const box = await page.getByRole('application').boundingBox();
    if (box === null) throw new Error('the bench is not in sight');
    const place = { left: box.x + 0.2 * box.width, top: box.y + 0.3 * box.height, height: 0.3 * box.height };
    await drawWithClaps(page, { ...place, step: sized(40, 20) }, { count, rest: REST_MS });
    await page.waitForTimeout(400);
  }
  const stop = async (): Promise<void> => {
    await button('Stop recording').click();
    await button('Save video').waitFor();
  };
  /** When lines were drawn in a take, and another frame was shown last, ms of it. */
  async function logOf(take: number): Promise<{ readonly lines: readonly number[]; readonly frame: number }> {
    const talk = await ask(page, 'talk/read', { swingId: demo.ids.now });
    const events = talk?.takes[take]?.events ?? [];
    const first = new Map<string, number>();
    for (const event of events)
      if (event.kind === 'draw' && event.at > 0 && !first.has(event.shape.id)) first.set(event.shape.id, event.at);
    return { lines: [...first.values()], frame: events.findLast(({ kind }) => kind === 'frame')?.at ?? 0 };
  }
  const goTo = (time: number): Promise<void> => page.getByLabel('Time', { exact: true }).fill(String(time));

  /** Saves the video and holds its lines against its claps, of a stretch in seconds: so many, each within one picture. */
  async function expectTogether(...spans: readonly { from: number; to: number; count: number }[]): Promise<void> {
    const out = join(demo.folder, 'talk.mp4');
    await answerDialogs(demo.program.app, out);
    await button('Save video').click();
    await page.getByText(/^Saved .*talk\.mp4\./).waitFor({ timeout: sized(150_000, 500_000) });
    const probed = spawnSync('ffprobe', ['-v', 'error', '-show_streams', '-of', 'json', out]).stdout.toString();
    const { streams } = JSON.parse(probed) as { streams: Record<string, unknown>[] };
    expect(streams.slice(0, 2)).toMatchObject([
      { codec_name: 'h264', width: 1920, height: 1080, avg_frame_rate: '30/1' },
      { codec_name: 'aac', sample_rate: '48000' },
    ]);
    const claps = clapsIn(ffmpeg, out);
    for (const { count, ...span } of spans) {
      const lines = linesIn(ffmpeg, out, span);
      expect(lines).toHaveLength(count);
      for (const [number, line] of lines.entries()) {
        const apart = Math.min(...claps.map((clap) => Math.abs(clap - line)));
        within(apart, 0, FRAME_MS + QUEUE_MS, `line ${String(number)} is seen with its clap`);
      }
    }
    await button('Close').click();
    expect(await draggedFile(demo.program.app, page, page.getByText('Drag out'))).toBe(out);
  }

  test('mark and clap are together in the video at its start and its end, also after a cut and a retake', async () => {
    await demo.openSwing();
    await demo.openCell('Top');
    // A frame without a name has no numbers that would make room for lines.
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByText('Exact picture').waitFor();
    await page.keyboard.press('l');
    await listenToClaps(page, EVERY_MS);
    await button('Record a talk-through').click();
    await page.getByText('Recording', { exact: true }).waitFor();
    expect(await asking({ video: true })).toBe('NotAllowedError');
    await look('talk-recording');
    await draw(CLAPS);
    await stop();
    expect(await asking({ audio: true })).toBe('NotAllowedError');
    await look('talk-page');
    expect(await seriousViolations(demo.program.app)).toEqual([]);
    const { lines } = await logOf(0);
    const [first = 0, second = 0, last = 0] = [lines[0], lines[1], lines.at(-1)];
    expect(lines).toHaveLength(CLAPS);
    // At full length the whole of it is looked at as well, before anything is put right.
    if (sized(false, true)) await expectTogether({ from: 0, to: last / 1000 + 0.3, count: CLAPS });

    const round = (time: number): number => Math.round(time / 100) * 100;
    const [from, to] = [round(first + 300), round(second - 300)];
    await goTo(from);
    await button('Part from here').click();
    await goTo(to);
    await button('Part to here').click();
    await button(/^Cut part, /).click();
    const anew = round(last + 300) - (to - from);
    await goTo(anew);
    await button('Record anew from here').click();
    await page.getByText('Recording', { exact: true }).waitFor();
    // On another frame, where no lines are yet.
    await page.keyboard.press('Shift+ArrowRight');
    await button('Pause').click();
    await button('Go on').click();
    await draw(RETAKEN);
    await stop();
    await look('talk-put-right');
    const retaken = await logOf(1);
    await expectTogether(
      { from: 0, to: anew / 1000 - 0.1, count: CLAPS },
      {
        from: (anew + retaken.frame) / 1000 + 0.1,
        to: (anew + (retaken.lines.at(-1) ?? 0)) / 1000 + 0.3,
        count: RETAKEN,
      },
    );
    await button(/^Undo: talk-through: recorded anew/).click();
    await expect.poll(async () => (await demo.readSwing()).talkEdits).toEqual([{ kind: 'cut', spans: [{ from, to }] }]);
  });

  test('of a recording that is killed (kill -9) all but the last second is there, and is offered', async () => {
    await goTo(1000);
    await button('Record anew from here').click();
    await page.getByLabel('Recorded so far: 0:03').waitFor();
    demo.program.app.process().kill('SIGKILL');
    await demo.restart();
    page = demo.page;
    await demo.openSwing();
    const talk = await ask(page, 'talk/read', { swingId: demo.ids.now });
    expect(talk?.brokenOff).toEqual({ take: 2, from: 1000 });
    expect(talk?.takes[2]?.length).toBeGreaterThan(2000);
    expect(talk?.takes[2]?.sound).not.toBeNull();
    await page.getByRole('button', { name: 'Talk-through', exact: true }).click();
    await page.getByText(/was cut short/).waitFor();
    await look('talk-cut-short');
    await button('Use it').click();
    await page.getByText(/was cut short/).waitFor({ state: 'detached' });
    const { talkEdits } = await demo.readSwing();
    expect(talkEdits?.at(-1)).toEqual({ kind: 'retake', from: 1000, take: 2 });
  });
});
