import { lowered, say } from '../../core/model/say.ts';
import { useMemo } from 'react';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { Surface } from '../bench/surface/surface.tsx';
import { useKeys } from '../bench/surface/use-keys.ts';
import type { PictureSource } from '../bench/surface/use-picture.ts';
import { benchView, resize } from '../canvas/bench-view.ts';
import { Button } from '../controls/button.tsx';
import lay from '../controls/lay.module.css';
import { KeyList, KeyWords } from '../bench/marks/guided-run.tsx';
import { app } from '../shell/state/app-state.ts';
import { useStore } from '../shell/state/store.ts';
import { namingShown } from '../tools/naming-run.ts';
import { namingHand } from './repeat-hand.ts';
import { LeaveDialog } from './repeat-placing.tsx';
import pageStyles from './repeat-page.module.css';
import { askToLeave, clipToCheck, sendToNaming } from './state/repeat-check.ts';
import type { NamingStage } from './state/repeat-check.ts';

const NO_MARKS = { items: [], rings: [], steady: false };

/** A clip without a name or a number in sight, in which the frame of one checkpoint is looked for. */
export function RepeatNamingView({ stage }: { readonly stage: NamingStage }) {
  const { run, leaving } = stage;
  const shown = namingShown(run);
  const clip = useStore(app, (state) => (shown === null ? null : clipToCheck(state, shown.clipId)));
  const frames = useStore(app, (state) => (shown === null ? undefined : state.indexes[shown.clipId]?.frames));
  const { index } = run;
  const source = useMemo(
    (): PictureSource => ({
      view: () => benchView.get().view,
      resized: resize,
      wanted: () => ({ index }),
      shown: () => undefined,
    }),
    [index],
  );
  useKeys(namingHand);
  if (shown === null || clip === null || frames === undefined) return null;
  const name = lowered(CHECKPOINT_LABELS[shown.checkpoint]);
  const [at, of] = [run.at + 1, run.showings.length];
  const progress = say`Naming ${String(at)} of ${String(of)}`;
  return (
    <div className={pageStyles.placing}>
      <Surface
        {...{ clip, frames, source }}
        marks={NO_MARKS}
        hand={namingHand}
        label={say`${progress}: find ${name}`}
        picture="shown"
        tool="move"
        showing={run.at}
      >
        {null}
      </Surface>
      <aside className={pageStyles.side} aria-label={say`Repeat check`}>
        <p className={lay.soft}>
          {progress}, {lowered(VIEW_LABELS[clip.view])}
        </p>
        <div aria-live="polite">
          <h2>{say`Find ${name}`}</h2>
          <p>{say`Step to the frame that you would name so, as if you saw the clip for the first time.`}</p>
        </div>
        <progress className={pageStyles.progress} value={run.at} max={of} aria-label={say`Frames named`} />
        <div className={lay.row}>
          {STEPS.map(({ key, label, sign }) => (
            <Button key={key} label={label} onPress={() => void sendToNaming(key)}>
              {sign}
            </Button>
          ))}
        </div>
        <Button look="main" onPress={() => void sendToNaming('Enter')}>
          {say`This is ${name}`}
        </Button>
        <KeyList>
          <KeyWords keys="← →">{say`a frame`}</KeyWords>
          <KeyWords keys={say`Page Up, Page Down`}>{say`ten frames`}</KeyWords>
          <KeyWords keys={say`Enter`}>{say`names it`}</KeyWords>
          <KeyWords keys={say`Esc`}>{say`leaves the check`}</KeyWords>
        </KeyList>
        <Button disabled={run.at === 0} onPress={() => void sendToNaming('Backspace')}>{say`Back one`}</Button>
        <Button look="quiet" onPress={() => askToLeave(true)}>{say`Leave the check`}</Button>
      </aside>
      {leaving ? (
        <LeaveDialog dropped={run.at === 0 ? null : run.at === 1 ? say`one naming` : say`${String(run.at)} namings`} />
      ) : null}
    </div>
  );
}

const STEPS = [
  { key: 'PageUp', label: say`−10 frames`, sign: '−10' },
  { key: 'ArrowLeft', label: say`−1 frame`, sign: '−1' },
  { key: 'ArrowRight', label: say`+1 frame`, sign: '+1' },
  { key: 'PageDown', label: say`+10 frames`, sign: '+10' },
] as const;
