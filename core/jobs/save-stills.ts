import { mkdir, rm } from 'node:fs/promises';
import { join, parse } from 'node:path';
import { say } from '../model/say.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { writeWholeFile } from '../files/write-whole-file.ts';
import { AppError } from '../model/errors.ts';
import type { Goals } from '../model/goals.ts';
import type { Checkpoint, View } from '../model/words.ts';
import { stillFileName } from '../sheet/still-file-name.ts';
import { openStillEncoder, type StillEncoder } from '../sheet/still-encoder.ts';
import { PHONE_SIZE, type StillFormat, type StillLayout } from '../report/still-file.ts';
import type { StillPanel } from '../sheet/write-still.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { readStill } from '../video/decode/read-still.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';
import { planStills, type PlannedPanel, type PlannedStill } from './plan-stills.ts';
import type { SwingSource } from './swing-source.ts';

export interface StillsOrder {
  readonly now: SwingSource;
  /** The earlier swing, for then / now; null for one swing. */
  readonly then: SwingSource | null;
  readonly checkpoints: readonly Checkpoint[];
  readonly views: readonly View[];
  /** Of the hand that placed the points; left out = assumed. */
  readonly placing?: PlacingErrors;
  /** Whose tolerances say that a difference is none. */
  readonly goals: Goals;
  readonly layout: StillLayout;
  readonly format: StillFormat;
  /** Pixels, within STILL_WIDTH; a still for a phone has its own width. */
  readonly width: number;
  /** Made when it is not there. */
  readonly folder: string;
  /** Files of the same name: refuse, put a number behind the new one, or replace. */
  readonly existing: 'refuse' | 'number' | 'replace';
}

export interface SavedStill {
  /** Absolute when the folder was. */
  readonly path: string;
  /** Where the same stands as plain text, for whoever cannot see it: the name of the still and ".txt". */
  readonly textPath: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  /** What had to be given up to stay within the size, as a sentence; null when nothing. */
  readonly note: string | null;
}

/** What stills are made of, wherever they go. */
export type StillsContent = Omit<StillsOrder, 'folder' | 'existing'>;

/**
 * Makes the stills of one swing, or of then and now, and writes them: all of them, or after a cancel or an error none.
 * @throws AppError `bad-request` (a view or checkpoint that is not there), `cancelled`, `file-exists`, `disk-full`,
 *   `not-writable`, and what reading a clip may throw.
 */
export async function saveStills(order: StillsOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<readonly SavedStill[]> {
  return writeAll(await makeStills(order, ffmpeg, run), order);
}

/** The same as the bytes of their files, written nowhere. */
export async function makeStills(order: StillsContent, ffmpeg: Ffmpeg, run: JobContext): Promise<readonly MadeStill[]> {
  const plan = planStills({
    now: order.now.swing,
    then: order.then?.swing ?? null,
    checkpoints: order.checkpoints,
    views: order.views,
    layout: order.layout,
    goals: order.goals,
    ...(order.placing === undefined ? {} : { placing: order.placing }),
  });
  const pictures = plan.flatMap(({ rows }) => rows.flatMap(({ panels }) => panels)).length;
  const total = pictures + plan.length;
  let done = 0;
  const step = (): void => run.report(say`Making the stills`, (done += 1), total);

  run.report(say`Making the stills`, 0, total);
  const made = [];
  const readFrame = frameReader(order, ffmpeg, run.signal);
  const encoder = openStillEncoder();
  const stop = (): void => void encoder.close();
  run.signal.addEventListener('abort', stop, { once: true });
  try {
    for (const still of plan) {
      made.push({
        name: nameOf(still, order),
        text: still.text,
        ...(await makeStill(still, order, readFrame, encoder, step)),
      });
      stopIfCancelled(run.signal);
      step();
    }
  } finally {
    run.signal.removeEventListener('abort', stop);
    await encoder.close();
  }
  return made;
}

type ReadFrame = (panel: PlannedPanel) => Promise<StillPanel>;

/** Reads the picture of a panel; each clip is looked up, and its frame table read, once. */
function frameReader({ now, then }: StillsContent, ffmpeg: Ffmpeg, signal: AbortSignal): ReadFrame {
  const clips = new Map<string, ReturnType<SwingSource['clipOf']>>();
  return async (panel) => {
    stopIfCancelled(signal);
    const { which, view, index: frameIndex } = panel.frame;
    const source = which === 'now' ? now : then;
    if (source === null) throw new Error('a panel of then needs the earlier swing');
    const key = `${which} ${view}`;
    const opened = clips.get(key) ?? source.clipOf(view, signal);
    clips.set(key, opened);
    const { path, index } = await opened;
    const still = await readStill(path, index, frameIndex, { ffmpeg, signal, as: 'rgba' });
    if (still === null)
      throw new AppError('no-such-frame', say`${path} has no frame ${frameIndex}. Name the checkpoint again.`);
    return { ...panel, picture: { width: still.width, height: still.height, rgba: still.data } };
  };
}

async function makeStill(
  still: PlannedStill,
  order: StillsContent,
  readFrame: ReadFrame,
  encoder: StillEncoder,
  step: () => void,
) {
  const rows = [];
  for (const { panels, comparisons } of still.rows) {
    const filled: StillPanel[] = [];
    for (const panel of panels) {
      filled.push(await readFrame(panel));
      step();
    }
    rows.push({ panels: filled, comparisons });
  }
  return encoder.encode({
    rows,
    headline: still.headline,
    notes: still.notes,
    phone: still.phone,
    width: still.phone === null ? order.width : PHONE_SIZE.width,
    format: order.format,
  });
}

function nameOf({ view, nameParts }: PlannedStill, { now: { swing }, format }: StillsContent): string {
  return stillFileName({ firstName: swing.studentFirstName, date: swing.date, view, parts: nameParts, format });
}

export interface MadeStill {
  /** Of its file. */
  readonly name: string;
  /** The same as plain text. */
  readonly text: string;
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly note: string | null;
}

async function writeAll(made: readonly MadeStill[], { folder, existing }: StillsOrder): Promise<readonly SavedStill[]> {
  await mkdir(folder, { recursive: true }).catch((cause: unknown) => {
    throw writingTrouble(cause, folder);
  });
  const saved: SavedStill[] = [];
  try {
    for (const { name, text, bytes, width, height, note } of made) {
      const written = await writeUnder(join(folder, name), { bytes, text }, existing);
      saved.push({ ...written, width, height, bytes: bytes.length, note });
    }
  } catch (cause) {
    // What replaced an older still cannot be undone; half a set of new ones would only confuse.
    if (existing !== 'replace') await removeAll(saved.flatMap(({ path, textPath }) => [path, textPath]));
    throw cause;
  }
  return saved;
}

/** Highest number put behind a name before giving up. */
const MOST_NUMBERED = 999;

/**
 * Writes a still with its text and returns the paths they got: with `number` the first of "top.png", "top-2.png" ... that is free, and
 * beside it "top.png.txt". Both are there afterwards, or neither.
 */
async function writeUnder(
  path: string,
  { bytes, text }: Pick<MadeStill, 'bytes' | 'text'>,
  existing: StillsOrder['existing'],
): Promise<Pick<SavedStill, 'path' | 'textPath'>> {
  const { dir, name, ext } = parse(path);
  const overwrite = existing === 'replace';
  for (let number = 1; ; number++) {
    const free = number === 1 ? path : join(dir, `${name}-${number}${ext}`);
    const textPath = `${free}.txt`;
    const written: string[] = [];
    try {
      await writeWholeFile(free, bytes, { overwrite });
      written.push(free);
      await writeWholeFile(textPath, Buffer.from(text), { overwrite });
      return { path: free, textPath };
    } catch (cause) {
      if (!overwrite) await removeAll(written);
      const taken = cause instanceof AppError && cause.code === 'file-exists';
      if (!taken || existing !== 'number' || number === MOST_NUMBERED) throw cause;
    }
  }
}

async function removeAll(paths: readonly string[]): Promise<void> {
  await Promise.all(paths.map((path) => rm(path, { force: true })));
}
