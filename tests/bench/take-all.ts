import type { ClipName } from './bars.ts';
import { takeBenchClip } from './bench-clip.ts';
import type { BenchRun } from './bench-run.ts';
import { takeLengthFigures, takePlainFigures } from './plain/take-plain-figures.ts';
import { takeTalkFigures } from './plain/take-talk.ts';
import { takeClipFigures } from './window/take-clip.ts';
import { takeKeepFigures } from './window/take-keep.ts';
import { takeJumpsByLength } from './window/take-lengths.ts';
import { takeLongFigures } from './window/take-long.ts';
import { takeTwoCameras } from './window/take-two.ts';
import { takePairFigures } from './window/take-pair.ts';

/** One part of a run did not come to its end; its figures have no value. */
export interface FailedPart {
  readonly what: string;
  readonly cause: unknown;
}

/** Takes every figure that is wanted of these clips. A part that fails takes none of the others with it. */
export async function takeAll(run: BenchRun, clips: readonly ClipName[]): Promise<readonly FailedPart[]> {
  const failed: FailedPart[] = [];
  const take = async (what: string, part: () => Promise<void>): Promise<void> => {
    await part().catch((cause: unknown) => {
      failed.push({ what, cause });
      run.say(`${what} FAILED: ${cause instanceof Error ? (cause.stack ?? cause.message) : String(cause)}`);
    });
  };
  for (const name of clips) {
    await take(name, async () => {
      const clip = await takeBenchClip(run.store, name);
      await take(`${name} outside the window`, () => takePlainFigures(run, name, clip));
      await take(`${name} in the window`, () => takeClipFigures(run, name, clip));
    });
  }
  if (clips.includes('1080p240')) {
    if (run.wants('memory')) await take('two clips', () => takePairFigures(run));
    if (run.wants('two')) await take('two cameras', () => takeTwoCameras(run));
    if (run.wants('long')) await take('three minutes', () => takeLongFigures(run));
    if (run.wants('keep')) await take('a swing of three minutes', () => takeKeepFigures(run));
    if (run.wants('talk')) await take('the video of a talk-through', () => takeTalkFigures(run));
    if (run.wants('length')) {
      await take('lengths outside the window', () => takeLengthFigures(run));
      await take('lengths in the window', () => takeJumpsByLength(run));
    }
  }
  return failed;
}
