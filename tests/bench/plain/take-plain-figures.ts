import { LENGTHS, ROWS } from '../bars.ts';
import type { ClipName } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { takeBenchClip } from '../bench-clip.ts';
import type { FilmName } from '../clips/recipes.ts';
import type { BenchClip } from '../bench-clip.ts';
import { median, ratio } from '../statistics.ts';
import { PROXY_SIDES } from '../../../core/video/proxy/proxy-size.ts';
import { timeFirstPass } from './first-pass.ts';
import { between, processorTime } from './processor-time.ts';
import { timeCopy, timeIndex } from './index-and-copy.ts';
import { timeRawDecode } from './plain-ffmpeg.ts';

const KB = 1024;
const [SMALL_SIDE] = PROXY_SIDES;
/** The index is read in a small part of a second: more repeats cost nothing. */
const INDEX_REPEATS = 5;

/** Index and copy of one clip against a plain decode of it, turn and turn about. */
export async function takePlainFigures(run: BenchRun, name: ClipName, clip: BenchClip): Promise<void> {
  const wants = { index: run.wants('index'), copy: run.wants('copy') };
  if (!wants.index && !wants.copy) return;
  const repeats = run.quick ? 1 : 3;
  const [decodes, indexes, copies, sizes]: [number[], number[], number[], number[]] = [[], [], [], []];
  const [smalls, alls]: [number[], number[]] = [[], []];
  const works: Readonly<Record<'decode' | 'copy' | 'small', number[]>> = { decode: [], copy: [], small: [] };
  for (let repeat = 1; repeat <= repeats; repeat += 1) {
    run.say(`${name}: plain decode${wants.copy ? ' and proxy' : ''}, ${repeat} of ${repeats} ...`);
    const before = processorTime();
    decodes.push(await timeRawDecode(clip));
    works.decode.push(between(before, processorTime()) ?? NaN);
    for (let each = 0; wants.index && each < INDEX_REPEATS; each += 1) indexes.push(await timeIndex(clip));
    if (!wants.copy) continue;
    const copy = await timeCopy(clip);
    copies.push(copy.lasted);
    sizes.push(copy.bytesPerFrame / KB);
    works.copy.push(copy.worked ?? NaN);
    const small = await timeCopy(clip, SMALL_SIDE);
    smalls.push(small.lasted);
    works.small.push(small.worked ?? NaN);
    alls.push(await timeFirstPass(clip, SMALL_SIDE));
  }
  const decode = median(decodes);
  const { index, copy } = ROWS;
  if (wants.index) {
    const middle = median(indexes);
    run.enter(index.each.index, name, middle);
    run.enter(index.each.decode, name, decode);
    run.enter(index.each.ratio, name, ratio(middle, decode));
  }
  if (!wants.copy) return;
  run.enter(copy.each.ratio, name, ratio(median(copies), decode));
  run.enter(copy.each.size, name, median(sizes));
  run.enter(copy.each.small, name, ratio(median(smalls), decode));
  run.enter(copy.each.work, name, ratio(median(works.copy), median(works.decode)));
  run.enter(copy.each.smallWork, name, ratio(median(works.small), median(works.decode)));
  run.enter(copy.each.all, name, ratio(median(alls), decode));
}

/** What a frame costs in a short and in a long clip of the same film. */
export async function takeLengthFigures(run: BenchRun): Promise<void> {
  // The short one more often: what else the machine was doing shows there most.
  const short = await costOfFrame(run, '1080p240-2s', 3);
  const long = await costOfFrame(run, '1080p240-20s', 1);
  const { lengths } = ROWS.length;
  run.enter(lengths.index, LENGTHS, ratio(long.index, short.index));
  run.enter(lengths.copy, LENGTHS, ratio(long.copy, short.copy));
}

/** Milliseconds a frame. */
async function costOfFrame(
  run: BenchRun,
  film: FilmName,
  copies: number,
): Promise<{ readonly index: number | null; readonly copy: number | null }> {
  const clip = await takeBenchClip(run.store, film);
  const { length } = clip.truth.frames;
  run.say(`lengths: index and proxy of ${length} frames ...`);
  const [indexTimes, copyTimes]: [number[], number[]] = [[], []];
  for (let each = 0; each < INDEX_REPEATS; each += 1) indexTimes.push(await timeIndex(clip));
  for (let each = 0; each < copies; each += 1) copyTimes.push((await timeCopy(clip)).lasted);
  return { index: ratio(median(indexTimes), length), copy: ratio(median(copyTimes), length) };
}
