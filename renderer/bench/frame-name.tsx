import { memo } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import { CHECKPOINT_MEANINGS } from '../../core/measure/words/glossary.ts';
import type { BookClip } from '../../core/model/book.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS } from '../../core/model/words.ts';
import { keyTitle } from '../shell/key-words.ts';
import { attempt } from '../shell/state/messages.ts';
import {
  PROPOSE_HINT,
  acceptProposal,
  goToProposed,
  nameByHand,
  proposalWords,
  proposeSwing,
} from './state/proposals.ts';
import { openProposals, openTakeaway, proposals } from './state/open-proposals.ts';
import { keptMarks, openBench } from './state/bench-actions.ts';
import { openOnNamed, proposedPoints } from './state/proposed-points.ts';
import { proposedWords } from './tool-words.ts';
import { app } from '../shell/state/app-state.ts';
import { isBusy } from '../shell/state/jobs.ts';
import { nameFrame } from '../swing/state/edit-actions.ts';
import { useStore } from '../shell/state/store.ts';
import { checkpointToFind, thisIsWords } from '../shell/next-step.ts';
import { Button } from '../controls/button.tsx';
import { Picker } from '../controls/fields.tsx';
import styles from './frame-name.module.css';

/**
 * Which checkpoint the frame on the bench is: gives it a name, another one, or none. The checkpoint that is looked for has
 * a button of its own.
 */
export const FrameName = memo(function FrameName({ clip }: { readonly clip: BookClip }) {
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const busy = useStore(app, isBusy);
  const looksFor = useStore(app, (state) => state.bench?.looksFor ?? null);
  const all = useStore(proposals, (each) => each);
  const waiting = useWaiting(clip);
  const [proposed] = openProposals(clip, all, looksFor);
  const takeaway = proposed === undefined ? openTakeaway(clip, all) : null;
  const here = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === at);
  const wanted = checkpointToFind(clip, looksFor);
  const options = CHECKPOINTS.map((value) => {
    const named = clip.checkpoints[value];
    const elsewhere = named === undefined || named.index === at ? '' : say` (was ${String(named.index)})`;
    return { value, label: CHECKPOINT_LABELS[value] + elsewhere };
  });
  return (
    <div className={styles.name}>
      <Picker
        label={say`This frame is`}
        value={here ?? ''}
        options={options}
        none={say`not named`}
        onChange={(checkpoint) => {
          if (checkpoint !== null) nameFrame(clip.id, checkpoint, at);
          else if (here !== undefined) nameFrame(clip.id, here, null);
        }}
      />
      {waiting > 0 ? (
        <>
          <p>{proposedWords(waiting)}</p>
          <Button
            look="main"
            hint={keyTitle('accept')}
            onPress={acceptProposal}
          >{say`Accept all that are left`}</Button>
        </>
      ) : proposed !== undefined ? (
        <>
          <p>{proposalWords(proposed)}</p>
          <Button
            look="main"
            hint={`${CHECKPOINT_MEANINGS[proposed.checkpoint]} ${keyTitle('accept')}`}
            onPress={acceptProposal}
          >
            {thisIsWords(proposed.checkpoint)}
          </Button>
          {proposed.frame === at ? null : (
            <Button look="quiet" small onPress={goToProposed}>{said`Back to frame ${proposed.frame}`}</Button>
          )}
        </>
      ) : wanted === null ? (
        takeaway === null ? null : (
          <Button
            small
            hint={CHECKPOINT_MEANINGS.takeaway}
            onPress={() => openBench(clip.id, takeaway.frame, 'takeaway')}
          >{said`Takeaway may be frame ${takeaway.frame}`}</Button>
        )
      ) : (
        <>
          <Button look="main" hint={CHECKPOINT_MEANINGS[wanted]} onPress={() => nameByHand(clip.id, wanted, at)}>
            {thisIsWords(wanted)}
          </Button>
          <Button
            look="quiet"
            hint={PROPOSE_HINT}
            disabled={busy}
            onPress={() => void attempt(() => proposeSwing(clip))}
          >{say`Propose this swing`}</Button>
        </>
      )}
    </div>
  );
});

/** How many points wait on the frame, which has its name; none while their own tool is in hand, which counts them itself. */
function useWaiting(clip: BookClip): number {
  useStore(proposedPoints, (each) => each);
  return useStore(app, (state) => {
    const marks = state.bench?.tool.tool === 'points' ? null : keptMarks(state);
    return marks === null ? 0 : openOnNamed(clip, marks).length;
  });
}
