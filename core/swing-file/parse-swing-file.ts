import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import { EMPTY_PAGE } from '../model/lesson-page.ts';
import { SWING_FILE_VERSION } from '../model/swing-file.ts';
import type { SwingFile, SwingFileClip } from '../model/swing-file.ts';
import { VIEWS } from '../model/words.ts';
import { captureRate, checkpointFrames } from '../parse/frames.ts';
import { lessonPage } from '../parse/lesson-page.ts';
import { frameMarks } from '../parse/marks.ts';
import { pinnedReadings } from '../parse/reading-key.ts';
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

export const swingFileClip = v.pipe(
  v.strictObject({
    view,
    file: v.pipe(
      v.string('must be text'),
      v.nonEmpty('must not be empty'),
      v.check((path) => !path.includes('\0'), 'must be a path'),
      v.metadata({ pattern: '^[^\\u0000]*$' }),
      v.description('Path of the clip: relative to the folder of this file (with / between its parts), or absolute.'),
    ),
    sha256,
    width: v.pipe(countFromOne, v.description('Width of the displayed frame in pixels.')),
    height: v.pipe(countFromOne, v.description('Height of the displayed frame in pixels.')),
    timebase: v.pipe(positiveRatio, v.description('Seconds a tick, e.g. 1 / 15360.')),
    nominalRate: v.pipe(
      v.nullable(positiveRatio),
      v.description(
        'Frames a second as stored in the clip file (an average when they vary); null when one frame is shown.',
      ),
    ),
    captureRate: v.pipe(
      v.nullable(captureRate),
      v.description(
        'Frames a second the camera really took, which is more in slow motion; null when unknown, then only times on screen ' +
          'can be given.',
      ),
    ),
    checkpoints: v.pipe(checkpointFrames, v.description('The frames that were named.')),
    marks: v.pipe(
      v.array(frameMarks),
      v.check((list) => allDifferent(list.map(({ frame }) => frame.index)), 'must have one entry a frame'),
      v.description('At most one entry a frame.'),
    ),
  }),
  v.check((clip) => framesAgree(clip), 'must give each frame index one time stamp'),
  v.description('One view of the swing.'),
);

/** "At most one clip a view" in JSON Schema. */
const onceAView = VIEWS.map((of) => ({
  contains: { type: 'object', required: ['view'], properties: { view: { const: of } } },
  minContains: 0,
  maxContains: 1,
}));

export const swingFile = v.pipe(
  v.strictObject({
    // So that editors find the description of the format; it carries nothing.
    $schema: v.exactOptional(v.pipe(v.string('must be text'), v.description('Optional; for editors.'))),
    format: v.pipe(v.literal('baybook-swing'), v.description('Says that this is a swing file.')),
    version: v.pipe(
      v.picklist([1, 2, 3, 4, 5, 6, SWING_FILE_VERSION]),
      v.description(
        'Version of the format. A program refuses a version above the ones it knows. Version 2 added free lines, paths, ' +
          "places on a circle's edge, carried shapes, and pinned readings. Version 3 added levels, ground marks, straight " +
          'edges, the ball as a circle, and where a known length lies and how surely it is known. Version 4 added the head as ' +
          'a box of its own. Version 5 added the lesson page. Version 6 added whether the student is a child. ' +
          'Version 7 added where a point had been proposed.',
      ),
    ),
    student: v.strictObject({
      firstName: v.pipe(name, v.description('The only name that leaves the book.')),
      child: v.exactOptional(
        v.pipe(
          v.literal(true),
          v.description('The student is a child: consent comes before anything is saved or sent. Since version 6.'),
        ),
      ),
    }),
    lesson: v.strictObject({
      date: day,
      club: v.pipe(name, v.description('Club played, e.g. 7 iron.')),
      handedness,
    }),
    clips: v.pipe(
      v.array(swingFileClip),
      v.check((clips) => allDifferent(clips.map((clip) => clip.view)), 'must hold at most one clip a view'),
      v.check(
        (clips) =>
          allDifferent(clips.flatMap((clip) => clip.marks.flatMap(({ shapes }) => shapes.map(({ id }) => id)))),
        'must not use one shape id twice',
      ),
      v.metadata({ allOf: onceAView }),
      v.description('At most one clip a view.'),
    ),
    pins: v.optional(
      v.pipe(
        pinnedReadings,
        v.description(
          'Readings that the coach wants on the stills, each once, in their order; where a cell has none of them, all stand ' +
            'there. Since version 2.',
        ),
      ),
      [],
    ),
    page: v.optional(v.pipe(lessonPage, v.description('The lesson page. Since version 5.')), EMPTY_PAGE),
  }),
  v.title(`Baybook swing file, version ${String(SWING_FILE_VERSION)}`),
  v.description(
    'One swing: the frames that were named and everything that was marked on them, for one clip of each view. A place in a ' +
      'picture is given in pixels of the displayed frame, that is, turned upright and with square pixels: x to the right, y ' +
      'down, pixel (i, j) covers [i, i+1) x [j, j+1), so the centre of the upper left pixel is (0.5, 0.5). Places may lie ' +
      'outside the picture. A frame is named by its index and its time stamp together; seconds are never used. Beyond what a ' +
      'schema can say: each marked frame stands once in a clip, a frame index has the same time stamp wherever it stands in ' +
      'a clip, and a shape id stands once in the file.',
  ),
);

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
      say`This swing file has version ${String(head.output.version)}; this Baybook reads up to version ${String(SWING_FILE_VERSION)}. Update Baybook to open it.`,
      { detail: { version: head.output.version } },
    );
  const result = v.safeParse(swingFile, content, { abortEarly: true });
  if (!result.success)
    throw new AppError(
      'swing-file-invalid',
      say`This is not a swing file: ${firstTrouble(result.issues, say`the content`)}.`,
    );
  const { format, version, student, lesson, clips, pins, page } = result.output;
  return { format, version, student, lesson, clips, pins, page };
}
