import { loudnessOf } from '../../../core/talk/silence.ts';
import { ask } from '../../api.ts';
import { attempt } from '../../shell/state/messages.ts';
import { createStore } from '../../shell/state/store.ts';
import { SAMPLE_RATE } from './microphone.ts';

/** How loud takes are (core/talk/silence.ts), by swing and number, as far as they were read. */
export const loudnessOfTakes = createStore<Readonly<Record<string, Float32Array>>>({});

export const takeKey = (swingId: string, take: number): string => `${swingId} ${String(take)}`;

/** Read at once, ms. */
const PART_MS = 20_000;
const LOUDEST = 32_768;
const underWay = new Set<string>();

/** A stretch of a take's sound, within -1..1. */
export async function soundOf(swingId: string, take: number, from: number, to: number): Promise<Float32Array> {
  const samples = await ask('talk/sound', { swingId, take, from, to });
  return Float32Array.from(samples, (sample) => sample / LOUDEST);
}

/** Reads how loud a take is, part by part, so that no long one is held whole. Once is enough: a take never changes. */
export async function readLoudness(swingId: string, take: number, length: number): Promise<void> {
  const key = takeKey(swingId, take);
  if (underWay.has(key)) return;
  underWay.add(key);
  const isRead = await attempt(async () => {
    const parts: Float32Array[] = [];
    for (let from = 0; from < length; from += PART_MS)
      parts.push(loudnessOf(await soundOf(swingId, take, from, Math.min(length, from + PART_MS)), SAMPLE_RATE));
    const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
    let at = 0;
    for (const part of parts) {
      whole.set(part, at);
      at += part.length;
    }
    loudnessOfTakes.update((all) => ({ ...all, [key]: whole }));
  });
  if (!isRead) underWay.delete(key);
}

/** A talk-through that was removed leaves nothing in the window either; its numbers go to other takes. */
export function forgetLoudness(): void {
  underWay.clear();
  loudnessOfTakes.update(() => ({}));
}
