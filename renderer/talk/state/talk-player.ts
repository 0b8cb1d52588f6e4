import type { Talk } from '../../../core/model/talk.ts';
import { soundFrom } from '../../../core/talk/on-time.ts';
import { talkLength } from '../../../core/talk/talk-time.ts';
import { attempt } from '../../shell/state/messages.ts';
import { cursor, goToTime } from './cursor.ts';
import { SAMPLE_RATE } from './microphone.ts';
import { soundOf } from './take-sound.ts';

/** Sound is fetched in parts of this, and so far ahead, ms. */
const PART_MS = 2000;
const AHEAD_MS = 5000;
/** Until the first part is there and can be heard, s. */
const START_SECONDS = 0.1;

let stop: (() => void) | null = null;

export function stopTalk(): void {
  stop?.();
}

/** Plays the talk-through from the cursor on, from its beginning where that is at the end; or stops. */
export function toggleTalkPlaying(swingId: string, talk: Talk): void {
  if (stop !== null) return stop();
  const length = talkLength(talk);
  const from = cursor.get().time >= length ? 0 : cursor.get().time;
  const context = new AudioContext({ sampleRate: SAMPLE_RATE });
  let [isOver, startAt] = [false, Infinity];
  let refresh = 0;
  const end = (): void => {
    if (isOver) return;
    isOver = true;
    stop = null;
    cancelAnimationFrame(refresh);
    void context.close();
    cursor.update((state) => ({ ...state, playing: false }));
  };
  const heard = (): number => from + Math.max(0, context.currentTime - startAt - (context.outputLatency || 0)) * 1000;
  const fetchAll = async (): Promise<void> => {
    for (const { take, from: first, to, at } of soundFrom(talk, from, PART_MS)) {
      const sound = talk.takes[take]?.sound ?? null;
      const samples = sound === null ? null : await soundOf(swingId, take, first + sound.start, to + sound.start);
      if (startAt === Infinity) startAt = context.currentTime + START_SECONDS;
      if (samples !== null && samples.length > 0 && !isOver) schedule(samples, at);
      while (!isOver && at - heard() > AHEAD_MS) await new Promise((resolve) => setTimeout(resolve, 200));
      if (isOver) return;
    }
  };
  const schedule = (samples: Float32Array, at: number): void => {
    const buffer = context.createBuffer(1, samples.length, SAMPLE_RATE);
    buffer.getChannelData(0).set(samples);
    const source = new AudioBufferSourceNode(context, { buffer });
    source.connect(context.destination);
    const when = startAt + (at - from) / 1000;
    const late = Math.max(0, context.currentTime - when);
    source.start(Math.max(when, context.currentTime), late);
  };
  const follow = (): void => {
    goToTime(heard(), length);
    if (heard() >= length) return end();
    refresh = requestAnimationFrame(follow);
  };
  stop = end;
  cursor.update((state) => ({ ...state, playing: true }));
  refresh = requestAnimationFrame(follow);
  void attempt(fetchAll).then((isWell) => {
    if (!isWell) end();
  });
}
