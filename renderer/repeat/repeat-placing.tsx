import { useCallback } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { askToLeave, clipToCheck, closeRepeatCheck, swingToCheck } from './state/repeat-check.ts';
import type { PlacingStage } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { choiceShown, placedHere, pointWanted, progressOf } from '../tools/repeat-tool.ts';
import { BodyFigure } from '../bench/marks/body-figure.tsx';
import { KeyWords, PlacingKeys } from '../bench/marks/guided-run.tsx';
import lay from '../controls/lay.module.css';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { RepeatCanvas } from './repeat-canvas.tsx';
import { repeatHand } from './repeat-hand.ts';
import pageStyles from './repeat-page.module.css';
import { useKeys } from '../bench/surface/use-keys.ts';

/** A bare frame, the point that comes next, and how far the check is. */
export function RepeatPlacing({ stage }: { readonly stage: PlacingStage }) {
  const { run, leaving } = stage;
  const choice = choiceShown(run);
  const clip = useStore(app, (state) => (choice === null ? null : clipToCheck(state, choice.clipId)));
  const frames = useStore(app, (state) => (choice === null ? undefined : state.indexes[choice.clipId]?.frames));
  const owner = useStore(app, (state) => (choice === null ? null : swingToCheck(state, choice.clipId)));
  useKeys(repeatHand);
  if (choice === null || clip === null || frames === undefined) return null;
  // By its time stamp: a clip that is settled meanwhile may number its frames anew.
  const index = frames.findIndex(({ pts }) => pts === choice.frame.pts);
  const wanted = pointWanted(run);
  const { done, of } = progressOf(run);
  const frameWords = say`Frame ${String(run.at + 1)} of ${String(run.showings.length)}`;
  return (
    <div className={pageStyles.placing}>
      <RepeatCanvas {...{ clip, frames, index, stage }} words={say`${frameWords} of the check`} />
      <aside className={pageStyles.side} aria-label={say`Repeat check`}>
        <p className={lay.soft}>
          {frameWords}, {lowered(VIEW_LABELS[clip.view])}
        </p>
        <div aria-live="polite">
          <h2>
            {wanted === null
              ? say`All points of this frame are placed`
              : say`Next: ${lowered(BODY_POINT_INFO[wanted].label)}`}
          </h2>
          {wanted === null ? null : <p>{BODY_POINT_INFO[wanted].where}</p>}
          <p className={lay.soft}>{said`Point ${Math.min(of, done + 1)} of ${of}`}</p>
        </div>
        {wanted === null ? null : (
          <BodyFigure view={clip.view} handedness={owner?.lesson.handedness ?? 'right'} point={wanted} />
        )}
        <progress className={pageStyles.progress} value={done} max={of} aria-label={say`Points placed`} />
        <PlacingKeys accepts={wanted === null ? say`next frame` : null}>
          <KeyWords keys={say`Esc`}>{say`leaves the check`}</KeyWords>
        </PlacingKeys>
        {wanted === null ? (
          <Button look="main" onPress={() => repeatHand.send({ type: 'key', key: 'Enter' })}>{say`Next frame`}</Button>
        ) : null}
        <Button
          disabled={run.at === 0 && Object.keys(placedHere(run)).length === 0}
          onPress={() => repeatHand.send({ type: 'key', key: 'Backspace' })}
        >{say`Back one`}</Button>
        <Button look="quiet" onPress={() => askToLeave(true)}>{say`Leave the check`}</Button>
      </aside>
      {leaving ? (
        <LeaveDialog dropped={done === 0 ? null : done === 1 ? say`one point` : say`${String(done)} points`} />
      ) : null}
    </div>
  );
}

/** `dropped`: what of the check would be lost, in words; null while that is nothing. */
export function LeaveDialog({ dropped }: { readonly dropped: string | null }) {
  const goOn = useCallback(() => askToLeave(false), []);
  return (
    <Dialog title={say`Leave the repeat check?`} onClose={goOn}>
      <p>
        {dropped === null
          ? say`Nothing was done yet.`
          : say`What was done in this check, ${dropped}, is dropped. Your marks stay as they are.`}
      </p>
      <div className={lay.row}>
        <Button autoFocus onPress={goOn}>{say`Go on`}</Button>
        <Button look="warning" onPress={closeRepeatCheck}>{say`Leave and drop it`}</Button>
      </div>
    </Dialog>
  );
}
