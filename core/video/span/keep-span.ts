import { randomUUID } from 'node:crypto';
import { rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { say } from '../../model/say.ts';
import { writingTrouble } from '../../files/file-trouble.ts';
import { refuseExisting } from '../../files/refuse-existing.ts';
import { AppError } from '../../model/errors.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import { frameRate } from '../../time/frame-rate.ts';
import { entryFrame } from '../../time/frame-table.ts';
import { spanLosses } from '../../time/span-losses.ts';
import type { SpanPlan } from '../../time/span-plan.ts';
import { readClipSource, readIndexedSource } from '../index/clip-source.ts';
import type { ClipSource } from '../index/clip-source.ts';
import { endEditAt } from './end-edit.ts';
import { entrySeconds } from '../index/entry-point.ts';
import { runFileJob } from '../process/file-job.ts';
import type { FileJobFailure } from '../process/file-job.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { findSpan } from './find-span.ts';
import type { FoundSpan } from './find-span.ts';
import { readPictureClock, shiftAt } from '../index/picture-clock.ts';
import { pictureSums } from './picture-sums.ts';
import { readClipIndex } from '../index/read-clip-index.ts';
import { findSecondFields } from '../index/second-fields.ts';
import { spanInputOptions, spanOutputOptions, spanOutputs, ticksTaken } from './span-arguments.ts';
import type { ReadingRange } from './span-arguments.ts';

export type KeepingStep = 'copy' | 'check';

export interface SpanToKeep {
  readonly ffmpeg: Ffmpeg;
  readonly path: string;
  /** The table of that file. */
  readonly index: ClipIndex;
  /** Frames of the clip, indices, both included. */
  readonly from: number;
  readonly to: number;
  /** The file to make; must not exist yet. A name ending in .mov gives a QuickTime file where the clip is one or an MP4. */
  readonly out: string;
  readonly signal?: AbortSignal | undefined;
  /** Frames copied so far, then frames checked, of so many; of each step `done` never falls. */
  readonly onProgress?: ((step: KeepingStep, done: number, total: number) => void) | undefined;
}

/** What the new file shows. */
export interface KeptSpan {
  /** Its frames are frames `first` to `last` of the clip, both included; first <= from and last >= to. */
  readonly first: number;
  readonly last: number;
  /** Whether it has the clip's sound; false also where the container does not take it. */
  readonly sound: boolean;
}

/** Key pictures that are tried, from the one before the span backwards, until one is found that decodes by itself. */
const MOST_KEYS_TRIED = 4;
/** Frames compared at the least. */
const COMPARED_FRAMES = 64;
/** And so many from the next key picture on: pictures of one group may be made from those of the group before it. */
const COMPARED_AFTER_KEY = 16;

/**
 * Writes a part of a clip to a file of its own without coding a picture again, in a container of the same family. It
 * begins at a key picture at or before `from`. Everything is checked before the file gets its name: that it shows frames
 * `first` to `last` of the clip and no other, with the same gaps, turn, mirroring, pixel aspect and capture rate, and that
 * the pictures after its beginning decode to the very same samples as in the clip, until some after the next key picture: what
 * a wrong beginning spoils is over by then, since from there on both decoders hold the same pictures.
 *
 * Throws AppError: `bad-request` (a span outside of the clip or reversed), `format-refused` (this clip cannot be
 * shortened so), `file-exists`, `disk-full`, `cancelled`, `clip-changed`, and what reading a clip may throw.
 */
export async function keepSpan(order: SpanToKeep): Promise<KeptSpan> {
  const { ffmpeg, path, index, out, signal } = order;
  await refuseExisting(out);
  const { source, found: likeliest } = await findPart(order);
  // The end of its name stays, for folders that clear away by it what a kill left.
  const temporary = join(dirname(out), `.${randomUUID()}-${basename(out)}`);
  try {
    for (let passOver = 0; passOver < MOST_KEYS_TRIED; passOver += 1) {
      const found = passOver === 0 ? likeliest : await findSpan(source, index, order, passOver, { ffmpeg, signal });
      if (found === null) break;
      const sound = await copySpan(source, order, found, temporary);
      const kept = await readKept(source, order, found.plan, temporary);
      if (await decodesAlike(source, order, found.plan, kept)) {
        await refuseExisting(out);
        await rename(temporary, out);
        return { first: found.plan.first, last: found.plan.last, sound };
      }
      await rm(temporary);
    }
    throw cannotShorten(path, say`it cannot be decoded from the middle`);
  } catch (error) {
    throw writingTrouble(error, out);
  } finally {
    await rm(temporary, { force: true });
  }
}

/**
 * Where the part will most likely begin and end, and its table of frames, before anything is cut: numbers hold as long as
 * it does begin there, which only a decode can tell. Throws AppError as `keepSpan` for a clip that cannot be cut at all.
 */
export async function findPart(
  order: Pick<SpanToKeep, 'ffmpeg' | 'path' | 'index' | 'from' | 'to' | 'signal'>,
): Promise<{ readonly source: ClipSource; readonly found: FoundSpan; readonly part: ClipIndex }> {
  const { ffmpeg, path, index, signal } = order;
  refuseBadSpan(order);
  const source = await readIndexedSource(path, index, { ffmpeg, signal });
  if (source.codec === 'h264' && !source.progressive && (await findSecondFields(source, { ffmpeg, signal })).size > 0)
    throw cannotShorten(path, say`its file stores each picture in two halves`);
  const found = await findSpan(source, index, order, 0, { ffmpeg, signal });
  if (found === null) throw cannotShorten(path, say`its file does not give every picture a time`);
  const { first, last } = found.plan;
  const moved = ticksTaken(source.format, index.frames[first]?.pts ?? 0);
  const frames = index.frames.slice(first, last + 1).map((frame) => ({ ...frame, pts: frame.pts - moved }));
  const rate = frameRate(
    frames.map(({ pts }) => pts),
    index.timebase,
  );
  return { source, found, part: { ...index, ...rate, frames, damage: [] } };
}

function refuseBadSpan({ index: { frames }, from, to }: Pick<SpanToKeep, 'index' | 'from' | 'to'>): void {
  const isFrame = (frame: number): boolean => Number.isInteger(frame) && frame >= 0 && frame < frames.length;
  if (isFrame(from) && isFrame(to) && from <= to) return;
  throw new AppError(
    'bad-request',
    say`The part to keep must begin at one of the frames 0 to ${frames.length - 1} and end at it or a later one.`,
    { detail: { from, to, frames: frames.length } },
  );
}

/** Copies with the first way of writing that works; returns whether the sound came along. */
async function copySpan(
  source: ClipSource,
  { ffmpeg, index, out, signal, onProgress }: SpanToKeep,
  { plan, reading }: FoundSpan,
  output: string,
): Promise<boolean> {
  const total = plan.last - plan.first + 1;
  const first = index.frames[plan.first]?.pts ?? 0;
  const shift = source.sound ? shiftAt(await readPictureClock(source.path, { ffmpeg, signal }), first) : 0;
  const widened = widenedBy(reading, Math.abs(shift));
  let failure: FileJobFailure | null = null;
  for (const way of spanOutputs(source.format, source.path, source.sound)) {
    failure = await runFileJob({
      ...{ ffmpeg, signal, input: source.path, output, named: out },
      inputOptions: spanInputOptions(source, widened),
      outputOptions: spanOutputOptions(source, index, plan, widened, way, shift),
      onProgress: (done) => onProgress?.('copy', Math.min(done, total), total),
    });
    if (failure !== null) continue;
    if (plan.hiddenAfter !== null) await endEditAt(output, plan.hiddenAfter - first);
    return way.sound;
  }
  throw cannotShorten(source.path, say`ffmpeg ${ffmpeg.version} does not write such a file`, failure);
}

/** The sound of the pictures at either end may lie beyond them in the file. */
function widenedBy({ enterAt, until }: ReadingRange, seconds: number): ReadingRange {
  return {
    enterAt: enterAt === null ? null : enterAt - seconds,
    until: until === null ? null : until + seconds,
  };
}

interface KeptFile {
  readonly source: ClipSource;
  readonly index: ClipIndex;
}

/** Reads the new file as any clip is read, and refuses it unless it shows what was planned. */
async function readKept(source: ClipSource, order: SpanToKeep, plan: SpanPlan, path: string): Promise<KeptFile> {
  const options = { ffmpeg: order.ffmpeg, signal: order.signal };
  const kept = { index: await readClipIndex(path, options), source: await readClipSource(path, options) };
  const losses = spanLosses(order.index, plan, kept.index);
  if (JSON.stringify(kept.source.colour) !== JSON.stringify(source.colour)) losses.push(say`its colours`);
  if (losses.length > 0) throw cannotShorten(order.path, say`this would change ${losses.join(' and ')}`);
  return kept;
}

/** Whether the kept file begins with the same pictures that the clip shows when it comes from farther back. */
async function decodesAlike(source: ClipSource, order: SpanToKeep, plan: SpanPlan, kept: KeptFile): Promise<boolean> {
  const { index } = order;
  const options = { ffmpeg: order.ffmpeg, signal: order.signal };
  const isKey = (at: number): boolean => index.frames[at]?.key === true;
  let next = plan.first + 1;
  while (next <= plan.last && !isKey(next)) next += 1;
  const until = Math.min(plan.last, Math.max(plan.first + COMPARED_FRAMES, next + COMPARED_AFTER_KEY) - 1);
  const before = entryFrame(index, plan.first - 1);
  const enterAt = before === null ? null : entrySeconds(index, source.format, before);
  const counts = { was: 0, is: 0 };
  const counting = (of: keyof typeof counts) => ({
    ...options,
    onPictures: (count: number) => {
      counts[of] = count;
      order.onProgress?.('check', counts.was + counts.is, 2 * (until - plan.first + 1));
    },
  });
  const both = [
    pictureSums(source, index, { from: plan.first, to: until }, enterAt, counting('was')),
    pictureSums(kept.source, kept.index, { from: 0, to: until - plan.first }, null, counting('is')),
  ] as const;
  // Where one of them fails or is cancelled, the other one has ended too before anybody hears of it.
  await Promise.allSettled(both);
  const [was, is] = await Promise.all(both);
  return was.length > 0 && was.length === is.length && was.every((sum, place) => sum === is[place]);
}

function cannotShorten(path: string, why: string, failure: FileJobFailure | null = null): AppError {
  return new AppError(
    'format-refused',
    say`${basename(path)} cannot be shortened: ${why}. Add the whole clip instead.`,
    {
      cause: failure?.cause,
      detail: { path, stderrTail: failure?.stderrTail ?? null },
    },
  );
}
