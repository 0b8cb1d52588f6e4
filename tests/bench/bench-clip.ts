import { readClipIndex } from '../../core/video/index/read-clip-index.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import type { FilmName } from './clips/recipes.ts';
import { takeClip } from './clips/clip-store.ts';
import type { ClipStore } from './clips/clip-store.ts';
import { takeTruth } from './clips/clip-truth.ts';
import type { ClipTruth } from './clips/clip-truth.ts';
import { turnedSize } from '../../core/time/display-size.ts';
import type { Size } from './clips/code-strip.ts';

/** A clip of the bench with all that is known of it. */
export interface BenchClip {
  readonly name: FilmName;
  readonly path: string;
  readonly ffmpeg: Ffmpeg;
  /** As stored, and as shown. */
  readonly stored: Size;
  readonly shown: Size;
  readonly turn: 0 | 90;
  readonly truth: ClipTruth;
  /** As Baybook reads it, without a decode. */
  readonly index: ClipIndex;
}

export async function takeBenchClip(store: ClipStore, name: FilmName): Promise<BenchClip> {
  const path = await takeClip(store, name);
  const { size, turn } = store.films.recipes[name];
  const truth = await takeTruth(store, path, size);
  const index = await readClipIndex(path, { ffmpeg: store.ffmpeg });
  return { name, path, ffmpeg: store.ffmpeg, stored: size, shown: turnedSize(size, turn), turn, truth, index };
}
