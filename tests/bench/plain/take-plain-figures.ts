import { LENGTHS, ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { BenchClip } from '../bench-clip.ts';
import { median, ratio } from '../statistics.ts';
import { timeCopy, timeIndex } from './index-and-copy.ts';
import { timeRawDecode } from './plain-ffmpeg.ts';

const KB = 1024;
/** The index is read in a small part of a second: more repeats cost nothing. */
const INDEX_REPEATS = 5;

/** Index and copy of one clip against a plain decode of it, turn and turn about. */
export async function takePlainFigures(run: BenchRun, name: ClipName, clip: BenchClip): Promise<void> {
  const wants = { index: run.wants('index'), copy: run.wants('copy') };
  if (!wants.index && !wants.copy) return;
  const repeats = run.quick ? 1 : 3;
  const [decodes, indexes, copies, sizes]: number[][] = [[], [], [], []];
  for (let repeat = 1; repeat <= repeats; repeat += 1) {
    run.say(`${name}: plain decode${wants.copy ? ' and scrub copy' : ''}, ${repeat} of ${repeats} ...`);
    decodes?.push(await timeRawDecode(clip));
    for (let each = 0; wants.index && each < INDEX_REPEATS; each += 1) indexes?.push(await timeIndex(clip));
    if (!wants.copy) continue;
    const copy = await timeCopy(clip);
    copies?.push(copy.lasted);
    sizes?.push(copy.bytesPerFrame / KB);
  }
  const decode = median(decodes ?? []);
  const { index, copy } = ROWS;
  if (wants.index) {
    const middle = median(indexes ?? []);
    run.enter(index.each.index, name, middle);
    run.enter(index.each.decode, name, decode);
    run.enter(index.each.ratio, name, ratio(middle, decode));
  }
  if (!wants.copy) return;
  run.enter(copy.each.ratio, name, ratio(median(copies ?? []), decode));
  run.enter(copy.each.size, name, median(sizes ?? []));
}

/** What a frame costs in a short and in a long clip of the same film. */
export async function takeLengthFigures(run: BenchRun): Promise<void> {
  const costs: { index: number; copy: number }[] = [];
  for (const film of ['1080p240-2s', '1080p240-5s', '1080p240', '1080p240-20s'] as const) {
    const clip = await takeBenchClip(run.store, film);
    const { length } = clip.truth.frames;
    run.say(`lengths: index and scrub copy of ${length} frames ...`);
    const indexes: number[] = [];
    for (let each = 0; each < INDEX_REPEATS; each += 1) indexes.push(await timeIndex(clip));
    const copies = [await timeCopy(clip)];
    // A short one is measured again: what a process costs to start shows there, and what else the machine was doing.
    if (length < 1000) copies.push(await timeCopy(clip), await timeCopy(clip));
    costs.push({
      index: (median(indexes) ?? 0) / length,
      copy: (median(copies.map(({ lasted }) => lasted)) ?? 0) / length,
    });
  }
  const [shortest, longest] = [costs[0], costs.at(-1)];
  const { lengths } = ROWS.length;
  run.enter(lengths.index, LENGTHS, ratio(longest?.index ?? null, shortest?.index ?? null));
  run.enter(lengths.copy, LENGTHS, ratio(longest?.copy ?? null, shortest?.copy ?? null));
}
