import { memo } from 'react';
import type { BookClip } from '../../core/model/book.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { isDamaged } from '../../core/time/damaged-spans.ts';
import { CHECKPOINTS, CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import type { Checkpoint } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { goTo, openBench } from './state/bench-actions.ts';
import { nameFrame } from '../swing/state/edit-actions.ts';
import { useStore } from '../shell/state/store.ts';
import styles from './bench-page.module.css';
import { CompanionChoice } from './surface/companion-choice.tsx';
import { checkpointToFind, thisIsWords } from '../shell/next-step.ts';
import { Button } from '../controls/button.tsx';
import { Picker } from '../controls/fields.tsx';
import { Still } from '../swing/still.tsx';
import { timeInWords } from '../shell/words.ts';

/** The column of the sheet that this clip stands in: go to a named frame, or name the frame on the bench. */
export const CheckpointRail = memo(function CheckpointRail({
  clip,
  index,
}: {
  readonly clip: BookClip;
  readonly index: ClipIndex;
}) {
  const clips = useStore(app, (state) => state.swing?.clips);
  const others = (clips ?? []).filter((other) => other.id !== clip.id);
  return (
    <nav className={styles.rail} aria-label="Checkpoints">
      {others.map((other) => (
        <Button key={other.id} small onPress={() => openOther(other, clip)}>
          Go to {VIEW_LABELS[other.view].toLowerCase()}
        </Button>
      ))}
      <CompanionChoice />
      <NameFrame clip={clip} />
      {CHECKPOINTS.map((checkpoint) => (
        <RailRow key={checkpoint} clip={clip} index={index} checkpoint={checkpoint} />
      ))}
    </nav>
  );
});

/** Opens the other view at the same checkpoint, where both have one. */
function openOther(other: BookClip, clip: BookClip): void {
  const at = app.get().bench?.index;
  const here = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === at);
  openBench(other.id, here === undefined ? 0 : (other.checkpoints[here]?.index ?? 0));
}

function RailRow(props: { readonly clip: BookClip; readonly index: ClipIndex; readonly checkpoint: Checkpoint }) {
  const { clip, index, checkpoint } = props;
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const looksFor = useStore(app, (state) => state.bench?.looksFor ?? null);
  const wanted = checkpointToFind(clip, looksFor) === checkpoint;
  const named = clip.checkpoints[checkpoint];
  const label = CHECKPOINT_LABELS[checkpoint];
  const here = named?.index === at;
  const name = () => nameFrame(clip.id, checkpoint, at);
  if (named === undefined) {
    return (
      <div className={`${styles.checkpoint ?? ''} ${wanted ? (styles.wanted ?? '') : ''}`}>
        <div className={styles.wide}>
          <Button
            look={wanted ? 'main' : 'plain'}
            label={`${wanted ? `${thisIsWords(checkpoint)}. ` : ''}Name this frame ${label.toLowerCase()}`}
            onPress={name}
          >
            {wanted ? thisIsWords(checkpoint) : label}
          </Button>
        </div>
      </div>
    );
  }
  return (
    <div className={styles.checkpoint} data-here={here}>
      <button type="button" className={styles.go} onClick={() => goTo(named.index)}>
        <div className={styles.thumb}>
          <Still clip={clip} index={named.index} marks={null} look="plain" quality="proxy" />
        </div>
        <div>
          <strong>{label}</strong>
          <span>
            frame {named.index}, {timeInWords(clip, index, named.index)}
            {isDamaged(index, named.index) ? ', damaged' : ''}
          </span>
        </div>
      </button>
    </div>
  );
}

/** Which checkpoint the frame on the bench is; gives it a name, another one, or none. */
function NameFrame({ clip }: { readonly clip: BookClip }) {
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const here = CHECKPOINTS.find((checkpoint) => clip.checkpoints[checkpoint]?.index === at);
  const options = CHECKPOINTS.map((value) => {
    const named = clip.checkpoints[value];
    const elsewhere = named === undefined || named.index === at ? '' : ` (was ${String(named.index)})`;
    return { value, label: CHECKPOINT_LABELS[value] + elsewhere };
  });
  return (
    <Picker
      label="This frame is"
      value={here ?? ''}
      options={options}
      none="not named"
      onChange={(checkpoint) => {
        if (checkpoint !== null) nameFrame(clip.id, checkpoint, at);
        else if (here !== undefined) nameFrame(clip.id, here, null);
      }}
    />
  );
}
