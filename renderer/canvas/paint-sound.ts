import type { SoundEnvelope } from '../../core/model/sound.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { peakBetween, secondsAtPlace } from '../../core/time/sound-on-strip.ts';
import type { Size } from './view-transform.ts';

const LOUDEST = 255;

/** Paints how loud a clip is over its frames, evenly spaced as on the strip; `size` in CSS pixels. */
export function paintSound(canvas: HTMLCanvasElement, size: Size, index: ClipIndex, sound: SoundEnvelope): void {
  const context = canvas.getContext('2d');
  if (context === null) return;
  const ratio = window.devicePixelRatio;
  canvas.width = Math.round(size.width * ratio);
  canvas.height = Math.round(size.height * ratio);
  context.fillStyle = getComputedStyle(canvas).color;
  const frames = index.frames.length;
  for (let column = 0; column < canvas.width; column += 1) {
    const [start, end] = [column, column + 1].map((at) => secondsAtPlace(index, (at * frames) / canvas.width));
    // By its root: a voice beside a strike would not be seen otherwise.
    const part = Math.sqrt(peakBetween(sound, start ?? 0, end ?? 0) / LOUDEST);
    const height = Math.round(part * canvas.height);
    context.fillRect(column, canvas.height - height, 1, height);
  }
}
