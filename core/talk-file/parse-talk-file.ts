import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { SwingFile } from '../model/swing-file.ts';
import { TALK_FILE_VERSION, TALK_LIMITS, type Talk } from '../model/talk.ts';
import { countFromOne } from '../parse/scalars.ts';
import { firstTrouble } from '../parse/sentence.ts';
import { piecesFit, talkClosing, talkPieces, talkTake } from '../parse/talk.ts';
import { swingFile } from '../swing-file/parse-swing-file.ts';

/** A talk-through outside the book, as JSON. Documented for others by resources/talk.schema.json (`npm run schemas`). */
export interface TalkFile extends Talk {
  readonly format: 'baybook-talk';
  readonly version: number;
  /** The swings that are talked about, as they were marked; their clips are named by path. */
  readonly swings: { readonly now: SwingFile; readonly then: SwingFile | null };
}

/** Every picture is of a clip that the swings have. */
function clipsAreThere({ takes, swings }: Pick<TalkFile, 'takes' | 'swings'>): boolean {
  const known = new Set(
    (['then', 'now'] as const).flatMap((of) => (swings[of]?.clips ?? []).map((clip) => `${of} ${clip.view}`)),
  );
  return takes.every(({ events }) =>
    events.every((event) => {
      if (event.kind === 'show') return event.panes.every((pane) => known.has(`${pane.which} ${pane.view}`));
      return (event.kind !== 'draw' && event.kind !== 'point') || known.has(`${event.which} ${event.view}`);
    }),
  );
}

export const talkFile = v.pipe(
  v.strictObject({
    $schema: v.exactOptional(v.pipe(v.string('must be text'), v.description('Optional; for editors.'))),
    format: v.pipe(v.literal('baybook-talk'), v.description('Says that this is a talk-through.')),
    version: v.pipe(
      v.picklist([1, TALK_FILE_VERSION]),
      v.description('Version of the format. A program refuses a version above the ones it knows.'),
    ),
    swings: v.pipe(
      v.strictObject({
        now: v.pipe(swingFile, v.description('The swing, as a swing file holds it; its clips are named by path.')),
        then: v.pipe(v.nullable(swingFile), v.description('The earlier swing, or null.')),
      }),
      v.description('What is talked about.'),
    ),
    takes: v.pipe(
      v.array(talkTake),
      v.maxLength(TALK_LIMITS.takes, `must hold at most ${String(TALK_LIMITS.takes)} takes`),
      v.description('What was recorded.'),
    ),
    pieces: talkPieces,
    closing: talkClosing,
  }),
  v.check((talk) => piecesFit(talk), 'must name pieces that lie within their takes'),
  v.check((talk) => clipsAreThere(talk), 'must show only clips that its swings have'),
  v.title(`Baybook talk-through, version ${String(TALK_FILE_VERSION)}`),
  v.description(
    'A talk-through of a lesson: what was shown and drawn, and when, with the sound in files beside it. A place in a picture ' +
      'is given in pixels of the displayed frame (turned upright, square pixels): x to the right, y down, pixel (i, j) covers ' +
      '[i, i+1) x [j, j+1). Beyond what a schema can say: events are in the order of time, a piece lies within its take and ' +
      'ends after it begins, only clips of the swings are shown, and the swings hold what a swing file must.',
  ),
);

const versioned = v.object({ format: v.literal('baybook-talk'), version: countFromOne });

/**
 * Reads a talk-through's content. Unknown fields are refused.
 *
 * @throws AppError `talk-file-newer` for a version above ours, `talk-file-invalid` naming the first field that is wrong and
 *   its rule.
 */
export function parseTalkFile(content: unknown): TalkFile {
  const head = v.safeParse(versioned, content);
  if (head.success && head.output.version > TALK_FILE_VERSION)
    throw new AppError(
      'talk-file-newer',
      say`This talk-through has version ${String(head.output.version)}; this Baybook reads up to version ${String(TALK_FILE_VERSION)}. Update Baybook to open it.`,
      { detail: { version: head.output.version } },
    );
  const result = v.safeParse(talkFile, content, { abortEarly: true });
  if (!result.success)
    throw new AppError(
      'talk-file-invalid',
      say`This is not a talk-through: ${firstTrouble(result.issues, say`the content`)}.`,
    );
  const { format, version, swings, takes, pieces, closing } = result.output;
  return { format, version, swings, takes, pieces, closing };
}
