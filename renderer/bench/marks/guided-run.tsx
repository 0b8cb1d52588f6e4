import type { ReactNode } from 'react';
import { lowered, say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { guessWords } from '../../../core/measure/proposed/learnt-words.ts';
import { BODY_POINT_INFO } from '../../../core/model/body-points.ts';
import type { BodyPointId } from '../../../core/model/body-points.ts';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { app } from '../../shell/state/app-state.ts';
import { isBusy } from '../../shell/state/jobs.ts';
import { askForPoint, pointAskedFor, runOf } from '../state/bench-actions.ts';
import { acceptPoints, openPoints, proposeBodyPoints, proposedOn, proposedPoints } from '../state/proposed-points.ts';
import { startsFor } from '../state/starts.ts';
import { proposedWords } from '../tool-words.ts';
import { Button } from '../../controls/button.tsx';
import { attempt } from '../../shell/state/messages.ts';
import { useStore } from '../../shell/state/store.ts';
import { HIDDEN_KEY } from '../../tools/keys.ts';
import benchStyles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { BodyFigure } from './body-figure.tsx';
import { nudgeKeysInWords } from '../../shell/key-words.ts';
import styles from './guided-run.module.css';

/** The guided run over the body points of a view: which comes next and where it is, and all of them to choose from. */
export function GuidedRun({ clip, marks }: { readonly clip: BookClip; readonly marks: FrameMarks }) {
  const asked = useStore(app, pointAskedFor);
  const handedness = useStore(app, (state) => state.swing?.lesson.handedness ?? 'right');
  useStore(proposedPoints, (all) => all);
  const busy = useStore(app, isBusy);
  const starts = startsFor(clip, marks.frame.index);
  const run = runOf(clip, marks.frame.index);
  const start = asked === null ? undefined : starts[asked];
  const proposed = openPoints(clip, marks, run).length;
  const isLookedAt = Object.keys(proposedOn(clip, marks.frame.index)).length > 0;
  const inHand = asked !== null && marks.points[asked] !== undefined;
  const placed = run.filter((point) => marks.points[point] !== undefined).length;
  return (
    <section className={benchStyles.card} aria-label={say`Body points`}>
      {asked === null ? (
        <h2>{said`All ${run.length} body points are placed`}</h2>
      ) : (
        <div className={styles.next}>
          <div aria-live="polite">
            <h2>
              {inHand ? say`In hand` : say`Next`}: {lowered(BODY_POINT_INFO[asked].label)}
            </h2>
            <p>{inHand ? say`The next click moves it. Esc leaves it where it is.` : BODY_POINT_INFO[asked].where}</p>
            <p className={lay.soft}>{said`${placed} of ${run.length} placed`}</p>
          </div>
          <BodyFigure view={clip.view} handedness={handedness} point={asked} />
        </div>
      )}
      {proposed > 0 ? (
        <>
          <p>
            {proposedWords(proposed)} {say`Enter accepts the dashed ring, a press puts the point elsewhere.`}
          </p>
          <Button
            hint={say`They count where they stand, with a wider ±, until you move them.`}
            onPress={() => acceptPoints(clip, marks, run)}
          >{say`Accept all that are left`}</Button>
          {start?.guess === undefined ? null : (
            <p className={lay.soft}>{guessWords(start.guess, start.proposed?.learnt)}</p>
          )}
        </>
      ) : asked === null || isLookedAt ? null : (
        <Button
          hint={say`Baybook looks for the joints on this frame. You say whether they are right.`}
          disabled={busy}
          onPress={() => void attempt(() => proposeBodyPoints(clip, marks.frame.index))}
        >{say`Propose the points`}</Button>
      )}
      <PlacingKeys accepts={asked !== null && starts[asked] !== undefined ? say`accepts the dashed ring` : null}>
        <KeyWords keys={HIDDEN_KEY.toUpperCase()}>{say`hidden`}</KeyWords>
      </PlacingKeys>
      <p className={lay.soft}>{say`Leave out what you do not need: press another below. “Move” ends it.`}</p>
      <div className={benchStyles.points}>
        {run.map((point) => (
          <PointButton key={point} point={point} marks={marks} asked={asked} />
        ))}
      </div>
    </section>
  );
}

/** The keys by which points are placed. `accepts`: what Enter does now; null: nothing. */
export function PlacingKeys(props: { readonly accepts: string | null; readonly children: ReactNode }) {
  const nudge = nudgeKeysInWords();
  return (
    <KeyList>
      {props.accepts === null ? null : <KeyWords keys={say`Enter`}>{props.accepts}</KeyWords>}
      {nudge === null ? null : <KeyWords keys={nudge.coarse}>{say`1 px`}</KeyWords>}
      {nudge === null ? null : <KeyWords keys={nudge.fine}>{say`0.1 px`}</KeyWords>}
      <KeyWords keys={say`Backspace`}>{say`back one`}</KeyWords>
      {props.children}
    </KeyList>
  );
}

/** Around `KeyWords`. */
export function KeyList({ children }: { readonly children: ReactNode }) {
  return (
    <ul className={styles.keys} aria-label={say`Keys`}>
      {children}
    </ul>
  );
}

export function KeyWords({ keys, children }: { readonly keys: string; readonly children: string }) {
  return (
    <li>
      <kbd>{keys}</kbd> {children}
    </li>
  );
}

function PointButton(props: {
  readonly point: BodyPointId;
  readonly marks: FrameMarks;
  readonly asked: BodyPointId | null;
}) {
  const { point, marks, asked } = props;
  const placed = marks.points[point];
  const { label } = BODY_POINT_INFO[point];
  const state = placed === undefined ? say`not placed` : placed.hidden ? say`placed, hidden` : say`placed`;
  return (
    <button
      type="button"
      className={benchStyles.point}
      data-placed={placed !== undefined}
      data-asked={point === asked}
      aria-label={`${label}, ${state}`}
      onClick={() => askForPoint(point)}
    >
      {label}
      {placed?.hidden === true ? say` (hidden)` : ''}
    </button>
  );
}
