/** One channel of sound, samples within -1 to 1, that begins with the first frame. */
export interface SwingSound {
  readonly sampleRate: number;
  readonly samples: Float32Array<ArrayBuffer>;
}

const SAMPLE_RATE = 48_000;
const ROOM = 0.004;
const CLICK = 0.85;
/** Seconds in which the click falls to 1/e, and pitch of its ring in Hz: short and high, as of iron on ball. */
const CLICK_FALL = 0.006;
const CLICK_RING = 3200;
const SWISH = 0.03;
const SWISH_WIDTH = 0.06;

/**
 * Faint room noise, the swish of the club, and the click of the struck ball, which starts at `impact` seconds: the
 * microphone is taken to stand at the ball, so the sound has no way to travel. The same samples on every call.
 */
export function swingSound(seconds: number, impact: number): SwingSound {
  const samples = new Float32Array(Math.round(seconds * SAMPLE_RATE));
  let state = 1;
  let low = 0;
  for (let at = 0; at < samples.length; at += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const noise = state / 2 ** 31 - 1;
    low += 0.08 * (noise - low);
    const after = at / SAMPLE_RATE - impact;
    const swish = SWISH * Math.exp(-((after / SWISH_WIDTH) ** 2));
    const click = after < 0 ? 0 : CLICK * Math.exp(-after / CLICK_FALL);
    const ring = 0.6 * Math.sin(2 * Math.PI * CLICK_RING * after) + 0.4 * noise;
    samples[at] = Math.max(-1, Math.min(1, ROOM * low * 4 + swish * low * 4 + click * ring));
  }
  return { sampleRate: SAMPLE_RATE, samples };
}
