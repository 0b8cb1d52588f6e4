import { useCallback, useEffect } from 'react';
import { BODY_POINT_INFO } from '../../core/model/body-points.ts';
import { VIEW_LABELS } from '../../core/model/words.ts';
import { centre, reach } from '../canvas/bench-view.ts';
import { app } from '../shell/state/app-state.ts';
import { keysOf, nameOfKey } from '../shell/state/key-choices.ts';
import { askToLeave, clipToCheck, closeRepeatCheck, sendToRepeat, swingToCheck } from './state/repeat-check.ts';
import type { RepeatStage } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { nudgeOf } from '../tools/nudge.ts';
import { choiceShown, placedHere, pointWanted, progressOf } from '../tools/repeat-tool.ts';
import { BodyFigure } from '../bench/marks/body-figure.tsx';
import { COMMANDS } from '../shell/commands.ts';
import { nudgeKeysInWords } from '../shell/key-words.ts';
import styles from '../bench/marks/guided-run.module.css';
import { Button } from '../controls/button.tsx';
import { Dialog } from '../controls/dialog.tsx';
import { RepeatCanvas } from './repeat-canvas.tsx';
import pageStyles from './repeat-page.module.css';
import { TYPING } from '../bench/use-bench-keys.ts';

type Placing = Extract<RepeatStage, { name: 'placing' }>;

/** A bare frame, the point that comes next, and how far the check is. */
export function RepeatPlacing({ stage }: { readonly stage: Placing }) {
  const { run, exact, missed, leaving } = stage;
  const choice = choiceShown(run);
  const clip = useStore(app, (state) => (choice === null ? null : clipToCheck(state, choice.clipId)));
  const frames = useStore(app, (state) => (choice === null ? undefined : state.indexes[choice.clipId]?.frames));
  const owner = useStore(app, (state) => (choice === null ? null : swingToCheck(state, choice.clipId)));
  useRepeatKeys();
  if (choice === null || clip === null || frames === undefined) return null;
  // By its time stamp: a clip that is settled meanwhile may number its frames anew.
  const index = frames.findIndex(({ pts }) => pts === choice.frame.pts);
  const wanted = pointWanted(run);
  const { done, of } = progressOf(run);
  const nudge = nudgeKeysInWords();
  const frameWords = `Frame ${String(run.at + 1)} of ${String(run.showings.length)}`;
  return (
    <div className={pageStyles.placing}>
      <RepeatCanvas
        clip={clip}
        frames={frames}
        index={index}
        run={run}
        exact={exact}
        missed={missed}
        words={`${frameWords} of the check`}
      />
      <aside className={pageStyles.side} aria-label="Repeat check">
        <p className={pageStyles.soft}>
          {frameWords}, {VIEW_LABELS[clip.view].toLowerCase()}
        </p>
        <div aria-live="polite">
          <h2>
            {wanted === null
              ? 'All points of this frame are placed'
              : `Next: ${BODY_POINT_INFO[wanted].label.toLowerCase()}`}
          </h2>
          {wanted === null ? null : <p>{BODY_POINT_INFO[wanted].where}</p>}
          <p className={pageStyles.soft}>
            Point {Math.min(of, done + 1)} of {of}
          </p>
        </div>
        {wanted === null ? null : (
          <BodyFigure view={clip.view} handedness={owner?.lesson.handedness ?? 'right'} point={wanted} />
        )}
        <progress className={pageStyles.progress} value={done} max={of} aria-label="Points placed" />
        <ul className={styles.keys} aria-label="Keys">
          {nudge === null ? null : (
            <>
              <li>
                <kbd>{nudge.coarse}</kbd> 1 px
              </li>
              <li>
                <kbd>{nudge.fine}</kbd> 0.1 px
              </li>
            </>
          )}
          {wanted === null ? (
            <li>
              <kbd>Enter</kbd> next frame
            </li>
          ) : null}
          <li>
            <kbd>Backspace</kbd> back one
          </li>
          <li>
            <kbd>Esc</kbd> leaves the check
          </li>
        </ul>
        {wanted === null ? (
          <Button look="main" onPress={() => sendToRepeat({ type: 'key', key: 'Enter' }, reach(), centre())}>
            Next frame
          </Button>
        ) : null}
        <Button
          disabled={run.at === 0 && Object.keys(placedHere(run)).length === 0}
          onPress={() => sendToRepeat({ type: 'key', key: 'Backspace' }, reach(), centre())}
        >
          Back one
        </Button>
        <Button look="quiet" onPress={() => askToLeave(true)}>
          Leave the check
        </Button>
      </aside>
      {leaving ? <LeaveDialog done={done} /> : null}
    </div>
  );
}

function LeaveDialog({ done }: { readonly done: number }) {
  const goOn = useCallback(() => askToLeave(false), []);
  return (
    <Dialog title="Leave the repeat check?" onClose={goOn}>
      <p>
        {done === 0
          ? 'Nothing was placed yet.'
          : `What was placed in this check, ${done === 1 ? 'one point' : `${String(done)} points`}, is dropped. Your marks stay as they are.`}
      </p>
      <div className={pageStyles.row}>
        <Button autoFocus onPress={goOn}>
          Go on
        </Button>
        <Button look="warning" onPress={closeRepeatCheck}>
          Leave and drop it
        </Button>
      </div>
    </Dialog>
  );
}

/** Of the bench's keys those that change how the picture is seen; the rest would lead away from the frame. */
const SEEING = new Set(['zoom-in', 'zoom-out', 'fit', 'one-to-one', 'loupe', 'lift-shadows']);
const PRESSING = new Set(['Enter', ' ']);

function useRepeatKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      const isIn = (kind: string) => event.target instanceof Element && event.target.closest(kind) !== null;
      if (event.defaultPrevented || isIn(TYPING)) return;
      if (PRESSING.has(event.key) && isIn('button')) return;
      if (carryOut(event)) event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

function carryOut(event: KeyboardEvent): boolean {
  const { key } = event;
  const isPlain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (isPlain && key === 'Escape') {
    // Esc ends a gesture or lets a point go first.
    if (!sendToRepeat({ type: 'cancel' }, reach(), centre())) askToLeave(true);
    return true;
  }
  if (isPlain && sendToRepeat({ type: 'key', key }, reach(), centre())) return true;
  const name = nameOfKey(event);
  const command = COMMANDS.find((each) => keysOf(each).includes(name));
  if (command === undefined) return false;
  const nudge = nudgeOf(command.id);
  if (nudge !== null) return sendToRepeat({ type: 'nudge', by: nudge.by }, reach(), centre());
  if (!SEEING.has(command.id)) return false;
  command.run();
  return true;
}
