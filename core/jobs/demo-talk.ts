import { dirname, join } from 'node:path';
import { say } from '../model/say.ts';
import { demoStory } from '../demo/demo-story.ts';
import { writeWave } from '../files/wave-file.ts';
import type { SwingFile } from '../model/swing-file.ts';
import { TALK_FILE_VERSION, type TalkEvent, type TalkPane } from '../model/talk.ts';
import type { Checkpoint, View } from '../model/words.ts';
import { cropAroundPlayer } from '../painting/crop.ts';
import type { TalkFile } from '../talk-file/parse-talk-file.ts';
import { writeTalkFile } from '../talk-file/read-talk-file.ts';

/** Milliseconds between two steps of the demo's talk-through, and how long its playing lasts. */
const STEP_MS = 2500;
const PLAYED_MS = 1500;
const SAMPLE_RATE = 48_000;
const TONE_SECONDS = 0.18;
const DRAWING = 'd3a0d3a0-0000-4000-8000-000000000001';

/**
 * Writes an invented talk-through of the demo: tones in place of a voice, one at each step, and the words as captions.
 * @returns the path of its log.
 */
export async function writeDemoTalk(folder: string, swings: TalkFile['swings']): Promise<string> {
  const events = demoEvents(swings);
  const length = (events.at(-1)?.at ?? 0) + STEP_MS;
  const sound = 'talk.wav';
  const path = join(folder, 'talk.json');
  const steps = events.filter(({ kind }) => kind === 'caption').map(({ at }) => at);
  await writeWave(join(dirname(path), sound), tones(steps, length), SAMPLE_RATE);
  const { keyThoughts, drills } = demoStory().pages.now;
  const [drill] = drills;
  await writeTalkFile(path, {
    ...{ format: 'baybook-talk', version: TALK_FILE_VERSION, swings },
    takes: [{ length, sound: { file: sound, start: 0 }, events }],
    pieces: [{ take: 0, from: 0, to: length }],
    closing: { thoughts: keyThoughts, drill: drill === undefined ? null : { title: drill.title, steps: drill.steps } },
  });
  return path;
}

/** Then beside now at address and at top, with what is measured and a line drawn by hand; then a short run to impact. */
function demoEvents({ now, then }: TalkFile['swings']): readonly TalkEvent[] {
  const both = (view: View, checkpoint: Checkpoint): TalkPane[] =>
    [then === null ? [] : [paneOf('then', then, view, checkpoint)], [paneOf('now', now, view, checkpoint)]].flat();
  const [view, other] = ['down-the-line', 'face-on'] as const;
  const at = (step: number): number => step * STEP_MS;
  const topPane = paneOf('now', now, view, 'top');
  const clip = now.clips.find((each) => each.view === view);
  const points = clip?.marks.find(({ frame }) => frame.index === topPane.frame.index)?.points ?? {};
  const [from, to] = [points['lead-shoulder'], points.ball];
  const reading = { id: 'shoulder-to-spine', aspect: 'value', view, checkpoint: 'top' } as const;
  const events: TalkEvent[] = [
    { at: 0, kind: 'show', panes: both(view, 'address') },
    { at: 0, kind: 'marks', shown: false, readings: [] },
    { at: 0, kind: 'chapter', title: say`Shoulders to spine` },
    { at: 0, kind: 'caption', text: say`Same start in both lessons.` },
    { at: at(1), kind: 'show', panes: both(view, 'top') },
    { at: at(1), kind: 'caption', text: say`At the top, look at the shoulders.` },
    { at: at(2), kind: 'marks', shown: false, readings: [reading] },
    { at: at(2), kind: 'caption', text: say`The earlier swing turned flatter than the spine.` },
    ...pointerRound(at(2) + 600, topPane),
    { at: at(3), kind: 'caption', text: say`The lead shoulder now points down toward the ball.` },
  ];
  if (from !== undefined && to !== undefined)
    events.push({
      ...{ at: at(3), kind: 'draw', which: 'now', view, frame: topPane.frame },
      shape: {
        ...{ kind: 'line', id: DRAWING, role: null, lengthMm: null },
        ...{ a: { x: from.x, y: from.y }, b: { x: to.x, y: to.y } },
      },
    });
  const face = paneOf('now', now, other, 'top');
  events.push(
    { at: at(4), kind: 'show', panes: [face] },
    { at: at(4), kind: 'chapter', title: say`Head in its box` },
    { at: at(4), kind: 'marks', shown: true, readings: [] },
    { at: at(4), kind: 'caption', text: say`From the front, watch the head come down to the ball.` },
    ...played(at(4) + 800, now, other),
    { at: at(5) + PLAYED_MS, kind: 'caption', text: say`It stays in its box until the strike.` },
  );
  return events.sort((one, another) => one.at - another.at);
}

function paneOf(which: 'then' | 'now', swing: SwingFile, view: View, checkpoint: Checkpoint): TalkPane {
  const clip = swing.clips.find((each) => each.view === view);
  const named = clip?.checkpoints[checkpoint];
  if (clip === undefined || named === undefined) throw new Error(`the demo has no ${checkpoint} ${view}`);
  const { index, pts } = named;
  return { which, view, frame: { index, pts }, part: cropAroundPlayer(clip.marks, clip) };
}

/** The pointer goes round the hands once. */
function pointerRound(start: number, { part }: TalkPane): readonly TalkEvent[] {
  const box = part ?? { x: 0, y: 0, width: 0, height: 0 };
  const steps = 30;
  const moves = Array.from({ length: steps }, (_, step): TalkEvent => {
    const angle = (2 * Math.PI * step) / steps;
    const x = Math.round(box.x + box.width * (0.5 + 0.1 * Math.cos(angle)));
    const y = Math.round(box.y + box.height * (0.3 + 0.05 * Math.sin(angle)));
    return { at: start + step * 40, kind: 'pointer', place: { pane: 1, x, y } };
  });
  return [...moves, { at: start + steps * 40, kind: 'pointer', place: null }];
}

/** The frames from top to impact, evenly over PLAYED_MS. */
function played(start: number, swing: SwingFile, view: View): readonly TalkEvent[] {
  const clip = swing.clips.find((each) => each.view === view);
  const [top, impact] = [clip?.checkpoints.top, clip?.checkpoints.impact];
  if (top === undefined || impact === undefined) return [];
  const frames = impact.index - top.index;
  const ticks = (impact.pts - top.pts) / frames;
  return Array.from({ length: frames }, (_, step): TalkEvent => {
    const frame = { index: top.index + step + 1, pts: Math.round(top.pts + ticks * (step + 1)) };
    return { at: Math.round(start + (PLAYED_MS * (step + 1)) / frames), kind: 'frame', pane: 0, frame };
  });
}

/** A short soft tone at each of the times, milliseconds. */
function tones(times: readonly number[], length: number): Float32Array {
  const samples = new Float32Array((length * SAMPLE_RATE) / 1000);
  const count = TONE_SECONDS * SAMPLE_RATE;
  for (const [index, time] of times.entries())
    for (let step = 0; step < count; step++) {
      const pitch = 440 + 60 * (index % 4);
      const loud = 0.3 * Math.sin((Math.PI * step) / count);
      samples[(time * SAMPLE_RATE) / 1000 + step] = loud * Math.sin((2 * Math.PI * pitch * step) / SAMPLE_RATE);
    }
  return samples;
}
