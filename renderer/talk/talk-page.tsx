import { useEffect } from 'react';
import type { BookSwing } from '../../core/model/book.ts';
import { talkLength } from '../../core/talk/talk-time.ts';
import { Button } from '../controls/button.tsx';
import { goBack } from '../shell/state/go-back.ts';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { clockOf } from './recording-controls.tsx';
import { SavePanel } from './save-panel.tsx';
import { dropBrokenOff, keepBrokenOff, readTalk, recordTalk, talkFrom, talkOfSwing } from './state/talk.ts';
import styles from './talk.module.css';

/** The coach's spoken review of a swing: recorded, put right, saved as a video. */
export function TalkPage({ swing }: { readonly swing: BookSwing }) {
  const state = useStore(talkOfSwing, (each) => each);
  const swingId = swing.swing.id;
  useEffect(() => void attempt(readTalk), [swingId]);
  if (swing.clips.length === 0) return <NoClip />;
  if (state === null || state.swingId !== swingId) return null;
  const talk = talkFrom(state, swing);
  if (talk === null || state.recorded === null) return <NothingYet />;
  return (
    <div className={styles.layout}>
      <div className={styles.empty}>
        <p>{clockOf(talkLength(talk) / 1000)}</p>
        {state.recorded.brokenOff === null ? null : <BrokenOff from={state.recorded.brokenOff.from} />}
        <Button onPress={() => void attempt(() => recordTalk())}>Record on</Button>
      </div>
      <aside className={styles.panel} aria-label="The video">
        <SavePanel saved={state.recorded.saved} />
      </aside>
    </div>
  );
}

function NoClip() {
  return (
    <div className={styles.empty}>
      <h2>No clip to talk about yet</h2>
      <p>Here you talk your student through the swing. First add a clip to the lesson sheet.</p>
      <Button look="main" onPress={goBack}>
        Go to the lesson sheet
      </Button>
    </div>
  );
}

function NothingYet() {
  return (
    <div className={styles.empty}>
      <h2>Talk your student through the swing</h2>
      <p>
        Step, play, zoom and draw as always while you speak. You can put it right afterwards, and save it as a video.
        Recording begins after a count of three.
      </p>
      <Button look="main" onPress={() => void attempt(() => recordTalk())}>
        Record
      </Button>
    </div>
  );
}

/** A part that was said anew when the program ended: nothing of it is lost, and nothing is put in unasked. */
function BrokenOff({ from }: { readonly from: number }) {
  return (
    <div role="note" className={styles.broken}>
      <p>A recording from {clockOf(from / 1000)} on was cut short. What was said until then is here.</p>
      <Button look="main" onPress={() => void attempt(keepBrokenOff)}>
        Use it
      </Button>
      <Button onPress={() => void attempt(dropBrokenOff)}>Delete it</Button>
    </div>
  );
}
