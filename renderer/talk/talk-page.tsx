import { useEffect, useMemo, useState } from 'react';
import { say } from '../../core/model/say.ts';
import { said } from '../controls/said.tsx';
import type { BookSwing } from '../../core/model/book.ts';
import { ask } from '../api.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { goBack } from '../shell/state/go-back.ts';
import { app } from '../shell/state/app-state.ts';
import { attempt, tellTrouble } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { keyTitle } from '../shell/key-words.ts';
import { useAnswer } from '../shell/use-answer.ts';
import { useReport } from '../swing/use-report.ts';
import { HerePanel } from './here-panel.tsx';
import { PutRight } from './put-right.tsx';
import { clockOf } from './recording-controls.tsx';
import { SavePanel } from './save-panel.tsx';
import { dropBrokenOff, keepBrokenOff, readTalk, recordTalk, removeTalk, talkFrom, talkOfSwing } from './state/talk.ts';
import styles from './talk.module.css';
import lay from '../controls/lay.module.css';

/** The coach's spoken review of a swing: recorded, put right, saved as a video. */
export function TalkPage({ swing }: { readonly swing: BookSwing }) {
  const state = useStore(talkOfSwing, (each) => each);
  const swingId = swing.swing.id;
  useEffect(() => void attempt(readTalk), [swingId]);
  const talk = useMemo(() => talkFrom(state, swing), [state, swing]);
  const recorded = state?.swingId === swingId ? state.recorded : null;
  const then = useThen(recorded?.thenId ?? null);
  const needsThen = recorded !== null && recorded.thenId !== null;
  const report = useReport(recorded === null || (needsThen && then === null) ? null : swing, then)?.report ?? null;
  if (swing.clips.length === 0) return <NoClip />;
  if (state === null || state.swingId !== swingId) return null;
  if (talk === null || state.recorded === null) return <NothingYet />;
  return (
    <div className={styles.layout}>
      <div className={styles.column}>
        {state.recorded.brokenOff === null ? null : <BrokenOff from={state.recorded.brokenOff.from} />}
        <PutRight talk={talk} swing={swing} then={then} report={report} />
      </div>
      <aside className={styles.panel} aria-label={say`What is seen and saved`}>
        <SavePanel swing={swing} saved={state.recorded.saved} />
        <HerePanel talk={talk} swing={swing} then={then} />
        <Remove />
      </aside>
    </div>
  );
}

/** The earlier swing that the talk-through shows: the one that is compared with, or read from the book. */
function useThen(thenId: string | null): BookSwing | null {
  const compared = useStore(app, (each) => each.then);
  const isOther = thenId !== null && compared?.swing.id !== thenId;
  const came = useAnswer(isOther ? thenId : null, readThen);
  useEffect(() => {
    if (came !== null && 'refused' in came) tellTrouble(came.refused);
  }, [came]);
  if (thenId === null) return null;
  return isOther ? (came !== null && 'answer' in came ? came.answer : null) : compared;
}

const readThen = async (id: string | null): Promise<BookSwing | null> =>
  id === null ? null : ask('swing/open', { id });

/** The way to be rid of it. */
function Remove() {
  const [asks, setAsks] = useState(false);
  return (
    <>
      <Button look="quiet" onPress={() => setAsks(true)}>{say`Remove talk-through`}</Button>
      {asks ? (
        <ConfirmDialog
          title={say`Remove the talk-through?`}
          what={say`All that was said and shown is deleted for good, with what was cut out of it. A video that you saved stays where it is.`}
          doIt={say`Remove for good`}
          onDo={() => void attempt(removeTalk)}
          onClose={() => setAsks(false)}
        />
      ) : null}
    </>
  );
}

function NoClip() {
  return (
    <div className={styles.empty}>
      <h2>{say`No clip to talk about yet`}</h2>
      <p>{say`Here you talk your student through the swing. First add a clip to the lesson sheet.`}</p>
      <Button look="main" onPress={goBack}>{say`Go to the lesson sheet`}</Button>
    </div>
  );
}

function NothingYet() {
  return (
    <div className={styles.empty}>
      <h2>{say`Talk your student through the swing`}</h2>
      <p>{say`Step, play, zoom and draw as always while you speak. You can put it right afterwards, and save it as a video. Recording begins after a count of three.`}</p>
      <Button
        look="main"
        hint={keyTitle('record')}
        onPress={() => void attempt(() => recordTalk())}
      >{say`Record`}</Button>
      <p className={lay.soft}>{say`Record, or stop: ${keyTitle('record')}. Pause, or go on: ${keyTitle('pause')}.`}</p>
    </div>
  );
}

/** A part that was said anew when the program ended: nothing of it is lost, and nothing is put in unasked. */
function BrokenOff({ from }: { readonly from: number }) {
  return (
    <div role="note" className={styles.broken}>
      <p>{said`A recording from ${clockOf(from / 1000)} on was cut short. What was said until then is here.`}</p>
      <Button look="main" onPress={() => void attempt(keepBrokenOff)}>{say`Use it`}</Button>
      <Button onPress={() => void attempt(dropBrokenOff)}>{say`Delete it`}</Button>
    </div>
  );
}
