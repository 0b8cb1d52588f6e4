import * as v from 'valibot';
import { AppError } from '../model/errors.ts';
import { SWING_FILE_VERSION } from '../model/swing-file.ts';
import type { SwingFile, SwingFileClip } from '../model/swing-file.ts';
import { pinnedReadings } from '../parse/edit.ts';
import { captureRate, checkpointFrames } from '../parse/frames.ts';
import { frameMarks } from '../parse/marks.ts';
import { countFromOne, day, handedness, name, positiveRatio, sha256, view } from '../parse/scalars.ts';
import { firstTrouble } from '../parse/sentence.ts';

/** Whether no two of the values are equal. */
const allDifferent = (values: readonly (string | number)[]): boolean => new Set(values).size === values.length;

/** A frame that is spoken of twice must be the same frame both times. */
function framesAgree(clip: Pick<SwingFileClip, 'checkpoints' | 'marks'>): boolean {
  const stamps = new Map<number, number>();
  return [...Object.values(clip.checkpoints), ...clip.marks.map((marks) => marks.frame)].every(({ index, pts }) => {
    const known = stamps.get(index);
    stamps.set(index, pts);
    return known === undefined || known === pts;
  });
}

const swingFileClip = v.pipe(
  v.strictObject({
    view,
    file: v.pipe(
      v.string('must be text'),
      v.nonEmpty('must not be empty'),
      v.check((path) => !path.includes('\0'), 'must be a path'),
    ),
    sha256,
    width: countFromOne,
    height: countFromOne,
    timebase: positiveRatio,
    nominalRate: v.nullable(positiveRatio),
    captureRate: v.nullable(captureRate),
    checkpoints: checkpointFrames,
    marks: v.pipe(
      v.array(frameMarks),
      v.check((list) => allDifferent(list.map(({ frame }) => frame.index)), 'must have one entry a frame'),
    ),
  }),
  v.check((clip) => framesAgree(clip), 'must give each frame index one time stamp'),
);

const swingFile = v.strictObject({
  // So that editors find the description of the format; it carries nothing.
  $schema: v.exactOptional(v.string('must be text')),
  format: v.literal('baybook-swing'),
  // Version 2 added free lines, paths, places on a circle's edge, shapes that are carried over all frames, and pinned readings;
  // version 3 levels, ground marks, straight edges, the ball as a circle, and a yardstick's plane and uncertainty;
  // version 4 the head as a box of its own.
  version: v.picklist([1, 2, 3, SWING_FILE_VERSION]),
  student: v.strictObject({ firstName: name }),
  lesson: v.strictObject({ date: day, club: name, handedness }),
  clips: v.pipe(
    v.array(swingFileClip),
    v.check((clips) => allDifferent(clips.map((clip) => clip.view)), 'must hold at most one clip a view'),
    v.check(
      (clips) => allDifferent(clips.flatMap((clip) => clip.marks.flatMap(({ shapes }) => shapes.map(({ id }) => id)))),
      'must not use one shape id twice',
    ),
  ),
  // Since version 2.
  pins: v.optional(pinnedReadings, []),
});

const versioned = v.object({ format: v.literal('baybook-swing'), version: countFromOne });

/**
 * Reads a swing file's content. Unknown fields are refused: a misspelt one would otherwise be lost without a word.
 *
 * @throws AppError `swing-file-newer` for a version above ours, `swing-file-invalid` naming the first field that is
 *   wrong and its rule.
 */
export function parseSwingFile(content: unknown): SwingFile {
  // A newer file may hold anything, so its version is looked at before the rest.
  const head = v.safeParse(versioned, content);
  if (head.success && head.output.version > SWING_FILE_VERSION)
    throw new AppError(
      'swing-file-newer',
      `This swing file has version ${String(head.output.version)}; this Baybook reads up to version ` +
        `${String(SWING_FILE_VERSION)}. Update Baybook to open it.`,
      { detail: { version: head.output.version } },
    );
  const result = v.safeParse(swingFile, content, { abortEarly: true });
  if (!result.success)
    throw new AppError(
      'swing-file-invalid',
      `This is not a swing file: ${firstTrouble(result.issues, 'the content')}.`,
    );
  const { format, version, student, lesson, clips, pins } = result.output;
  return { format, version, student, lesson, clips, pins };
}
