import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { renderTalk } from '../../../core/jobs/render-talk.ts';
import type { SwingSource } from '../../../core/jobs/swing-source.ts';
import type { Talk, TalkEvent } from '../../../core/model/talk.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { ffmpegNow } from '../../support/coded-clip.ts';
import { ROWS } from '../bars.ts';
import { takeBenchClip, type BenchClip } from '../bench-clip.ts';
import type { BenchRun } from '../bench-run.ts';
import { readUsage } from '../window/processes.ts';

const MB = 1024 * 1024;
const LOOK_MS = 250;
const SAMPLE_RATE = 48_000;
/** One part of the talk-through: shown, played for a quarter of it, pointed at, stepped through. */
const PART_MS = 20_000;
const PLAYED = { from: 2000, pictures: 150, everyMs: 1000 / 30 } as const;
const POINTED = { from: 9000, moves: 90, everyMs: 33 } as const;
const STEPPED = { from: 13_000, steps: 6, everyMs: 900 } as const;

/** The video of a talk-through of two minutes (twenty seconds with --quick): how long it takes, and what it needs. */
export async function takeTalkFigures(run: BenchRun): Promise<void> {
  const clip = await takeBenchClip(run.store, '1080p240');
  const length = run.quick ? PART_MS : 6 * PART_MS;
  run.say(`talk-through: the video of ${length / 1000} s ...`);
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-talk-'));
  try {
    makeVoice(clip, join(folder, 'voice.wav'), length);
    const before = (await readUsage(process.pid))?.memory ?? 0;
    const start = performance.now();
    const order = {
      talk: talkOf(clip, length),
      folder,
      now: sourceOf(clip),
      then: null,
      goals: SHIPPED_GOALS,
    } as const;
    const made = renderTalk(
      { ...order, shape: 'wide', burnCaptions: true, out: join(folder, 'talk.mp4'), existing: 'refuse' },
      clip.ffmpeg,
      { signal: new AbortController().signal, report: () => undefined },
    );
    const most = await mostWhile(made);
    const { talk } = ROWS.talk;
    run.enter(talk.ratio, clip.name, (performance.now() - start) / length);
    run.enter(talk.memory, clip.name, most === null ? null : (most - before) / MB);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** The most memory of this process and its children while something goes on, bytes. */
async function mostWhile(work: Promise<unknown>): Promise<number | null> {
  let [most, working] = [0, true];
  const watching = (async () => {
    for (; working; await rest(LOOK_MS)) most = Math.max(most, (await readUsage(process.pid))?.memory ?? 0);
  })();
  try {
    await work;
  } finally {
    working = false;
    await watching;
  }
  return most === 0 ? null : most;
}

function talkOf({ index }: BenchClip, length: number): Talk {
  const events: TalkEvent[] = [];
  const frame = (number: number) => {
    const shown = number % index.frames.length;
    return { index: shown, pts: index.frames[shown]?.pts ?? 0 };
  };
  for (let start = 0; start < length; start += PART_MS) {
    const first = (start / PART_MS) * 37;
    const pane = { which: 'now', view: 'face-on', part: null } as const;
    const add = (from: number, count: number, everyMs: number, event: (step: number) => Untimed): void => {
      for (let step = 0; step < count; step++)
        events.push({ at: start + Math.round(from + step * everyMs), ...event(step) });
    };
    events.push({ at: start, kind: 'show', panes: [{ ...pane, frame: frame(first) }] });
    events.push({ at: start, kind: 'caption', text: 'This is what I see here.' });
    add(PLAYED.from, PLAYED.pictures, PLAYED.everyMs, (step) => ({
      kind: 'frame',
      pane: 0,
      frame: frame(first + step),
    }));
    add(POINTED.from, POINTED.moves, POINTED.everyMs, (step) => ({
      kind: 'pointer',
      place: { pane: 0, x: 400 + 9 * step, y: 300 + 4 * step },
    }));
    add(STEPPED.from, STEPPED.steps, STEPPED.everyMs, (step) => ({
      kind: 'frame',
      pane: 0,
      frame: frame(first + step),
    }));
  }
  return {
    takes: [{ length, sound: { file: 'voice.wav', start: 0 }, events }],
    pieces: [{ take: 0, from: 0, to: length }],
    closing: { thoughts: ['One thought.'], drill: null },
  };
}

type Untimed = TalkEvent extends infer Each ? (Each extends TalkEvent ? Omit<Each, 'at'> : never) : never;

function sourceOf({ path, index }: BenchClip): SwingSource {
  const { width, height, timebase } = index;
  return {
    swing: {
      ...{ studentFirstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right' },
      clips: [
        { view: 'face-on', width, height, timebase, nominalRate: null, captureRate: null, checkpoints: {}, marks: [] },
      ],
    },
    clipOf: () => Promise.resolve({ path, index }),
  };
}

/**
 * Speech, as far as its loudness goes: on for two seconds, off for one. Made elsewhere: what this process let go of would be
 * there before the video is made, and gone after.
 */
function makeVoice({ ffmpeg }: BenchClip, path: string, length: number): void {
  const tone = `sine=frequency=220:sample_rate=${String(SAMPLE_RATE)}:duration=${String(length / 1000)}`;
  const loudness = "volume='if(eq(mod(floor(t),3),2),0.01,1.6)':eval=frame";
  ffmpegNow(ffmpeg, ['-f', 'lavfi', '-i', `${tone},${loudness}`, '-c:a', 'pcm_s16le', path]);
}
