import { inFigures } from '../../core/model/language.ts';
import { useMemo, useState } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { AppError } from '../../core/model/errors.ts';
import { VIEWS, VIEW_LABELS } from '../../core/model/words.ts';
import type { View } from '../../core/model/words.ts';
import type { ClipSummary } from '../../core/time/clip-summary.ts';
import { LONG_SECONDS } from '../../core/time/clip-summary.ts';
import { say } from '../../core/model/say.ts';
import { isolated } from '../../core/model/isolated.ts';
import { app } from '../shell/state/app-state.ts';
import { attempt, tellDone } from '../shell/state/messages.ts';
import { useAnswer } from '../shell/use-answer.ts';
import type { ImportChoice, PartToKeep } from '../swing/state/swing-actions.ts';
import { keepPart } from '../swing/state/keeping.ts';
import { importClip, importSwings, inspectClip } from '../swing/state/swing-actions.ts';
import { CONSENT } from '../../core/measure/words/cautions.ts';
import styles from '../swing/clip-head.module.css';
import { FormDialog } from '../controls/dialog.tsx';
import { readFirstSight } from './first-sight.ts';
import { FirstSightPicture, PreviewPicture } from './preview-picture.tsx';
import { Check, Choice } from '../controls/fields.tsx';
import { PartChoice } from './part-choice.tsx';
import { useParts } from './use-parts.ts';
import { bytesInWords, countInWords, leftOutInWords } from '../shell/words.ts';

/** Asks how a chosen file comes into a swing: its view, all of it or the swing alone, copied or linked. */
export function ImportDialog(props: {
  readonly path: string;
  readonly view: View;
  readonly swing: BookSwing;
  readonly onClose: () => void;
  /** Closes it and asks for another file. */
  readonly onChooseAnother: () => void;
}) {
  const { path, onClose, onChooseAnother } = props;
  const free = VIEWS.filter((view) => props.swing.clips.every((clip) => clip.view !== view));
  const look = useAnswer(path, inspectClip);
  // Asked for with the look, so that it is made meanwhile. All else that is asked of the file would hold it up, and waits.
  const sooner = useMemo(() => readFirstSight(path), [path]);
  const isHeldUp = useAnswer(sooner, soonOrNot) === null;
  const [view, setView] = useState(props.view);
  const [stored, setStored] = useState<'copied' | 'linked'>('copied');
  /** Null until the coach has said: then a long clip is shortened and another is not. */
  const [shorten, setShorten] = useState<boolean | null>(null);

  const refusal = look !== null && 'refused' in look ? look.refused : null;
  const clip = look !== null && 'answer' in look && !isHeldUp ? look.answer : null;
  const kept = useParts({ path, view, swingId: props.swing.swing.id }, clip);
  const isShortened = clip !== null && (shorten ?? clip.long);
  if (refusal !== null)
    return (
      <FormDialog
        title={say`Add a clip`}
        doIt={say`Add clip`}
        instead={{ label: say`Choose another file`, run: onChooseAnother }}
        onDo={onChooseAnother}
        onClose={onClose}
      >
        <p style={{ overflowWrap: 'anywhere' }}>{path}</p>
        <p role="alert">{refusalInWords(refusal, path)}</p>
      </FormDialog>
    );
  return (
    <FormDialog
      title={say`Add a clip`}
      doIt={isShortened ? addPartsWords(kept.parts.length) : say`Add clip`}
      disabled={clip === null}
      onDo={() => {
        onClose();
        const [only, another] = kept.parts;
        void attempt(() => {
          if (!isShortened) return addClip({ path, view, stored, span: null });
          if (another !== undefined) return addSwings({ path, view }, kept.parts);
          return addClip({ path, view, stored: 'copied', span: only?.span ?? null });
        });
      }}
      onClose={onClose}
    >
      <div>
        <p style={{ overflowWrap: 'anywhere' }}>{path}</p>
        <p role="status">{clip === null ? say`Looking at the clip ...` : summaryInWords(clip)}</p>
        {clip === null || isShortened ? (
          <FirstSightPicture label={FIRST_FRAME} made={sooner} />
        ) : (
          <PreviewPicture frame={0} label={FIRST_FRAME} width={clip.width} height={clip.height} sooner={sooner} />
        )}
      </div>
      <Choice
        label={say`Where did the camera stand?`}
        value={view}
        options={free.map((value) => ({ value, label: VIEW_LABELS[value] }))}
        onChange={setView}
      />
      {clip === null || clip.frameCount < 2 ? null : (
        <Check checked={isShortened} onChange={setShorten}>{say`Keep only the swing`}</Check>
      )}
      {clip !== null && isShortened ? (
        <>
          <PartChoice look={clip} parts={kept} />
          <p>{say`What is kept is copied into the book. The file you chose stays as it is and where it is.`}</p>
        </>
      ) : (
        <Choice
          label={say`Keep the file`}
          value={stored}
          options={[
            { value: 'copied', label: say`Copy it into the book` },
            { value: 'linked', label: say`Leave it where it is` },
          ]}
          onChange={setStored}
        />
      )}
      <p className={styles.caution}>{CONSENT}</p>
    </FormDialog>
  );
}

const FIRST_FRAME = say`The clip's first frame`;

/** How long the first picture is waited for, ms; it mostly comes before the facts. */
const SIGHT_LIMIT_MS = 1000;

const soonOrNot = (sight: Promise<unknown>): Promise<unknown> =>
  Promise.race([sight, new Promise((resolve) => setTimeout(resolve, SIGHT_LIMIT_MS))]);

/** What is wrong with the file, whose name stands above, and what can be done. */
function refusalInWords(refusal: unknown, path: string): string {
  if (!(refusal instanceof AppError)) return say`This file cannot be read as a clip. Choose it again, or another file.`;
  return refusal.message.replaceAll(path, say`This file`);
}

function summaryInWords(look: ClipSummary): string {
  const { frameCount, seconds, width, height, bytes, long, leftOut } = look;
  const frames = frameCount === 1 ? say`1 frame` : say`${countInWords(frameCount)} frames`;
  const facts = `${frames}, ${inFigures(seconds.toFixed(1))} s, ${width} × ${height}, ${bytesInWords(bytes)}.`;
  const size = `${facts} ${leftOutInWords(leftOut)}`.trimEnd();
  if (!long) return size;
  return seconds > LONG_SECONDS
    ? say`${size} That is a long clip: with the swing alone it opens sooner and takes less room.`
    : say`${size} That is a clip of many frames: with the swing alone it opens sooner and takes less room.`;
}

function addPartsWords(count: number): string {
  return count === 1 ? say`Add the swing` : say`Add ${countInWords(count)} swings`;
}

/** Adds some swings of one clip to the lesson, and says how many came in, also where it was stopped on the way. */
async function addSwings(clip: Pick<ImportChoice, 'path' | 'view'>, parts: readonly PartToKeep[]): Promise<void> {
  let added = 0;
  try {
    await importSwings(clip, parts, () => (added += 1));
  } finally {
    if (added > 0)
      tellDone(say`${countInWords(added)} of ${countInWords(parts.length)} swings were added to this lesson.`);
  }
}

/** Adds the clip, and says where a part of one begins once it is taken: it may be earlier than was asked for. */
async function addClip(choice: ImportChoice): Promise<void> {
  const added = await importClip(choice);
  if (added === null || choice.span === null) return;
  const taken = await keepPart(added);
  const clip = app.get().swing?.clips.find(({ id }) => id === taken?.id);
  if (clip === undefined || clip.kept === null) return;
  const { first, of } = clip.kept;
  const earlier = choice.span.from - first;
  const why = earlier === 0 ? '' : say` They begin ${countInWords(earlier)} earlier: the clip can only be cut there.`;
  tellDone(
    say`Kept frames ${countInWords(first)} to ${countInWords(first + clip.frameCount - 1)} of the ${countInWords(of)} of ${isolated(clip.originalName)}.${why}`,
  );
}
