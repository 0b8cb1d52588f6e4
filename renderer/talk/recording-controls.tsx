import { useEffect } from 'react';
import { Button } from '../controls/button.tsx';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { screenOfWindow } from './screen.ts';
import {
  chooseMicrophone,
  connectRecording,
  recording,
  recordWithoutSound,
  togglePause,
  tryMicrophoneAgain,
} from './state/recording.ts';
import { finishTalk } from './state/talk.ts';
import styles from './talk.module.css';

/** What there is to do while a talk-through is recorded, in the head of every page. */
export function RecordingControls() {
  const stage = useStore(recording, (state) => state.stage);
  useEffect(() => connectRecording(screenOfWindow), []);
  if (stage === 'silent')
    return (
      <div className={styles.controls} role="group" aria-label="Recording">
        <Button small onPress={() => void attempt(tryMicrophoneAgain)}>
          Try again
        </Button>
        <Button small onPress={() => void attempt(recordWithoutSound)}>
          Record without sound
        </Button>
        <Stop words="Cancel" />
      </div>
    );
  const isOn = stage === 'recording' || stage === 'paused';
  return (
    <div className={styles.controls} role="group" aria-label="Recording">
      <Time />
      <Meter />
      <Microphones />
      <Button small look="quiet" disabled={!isOn} onPress={togglePause}>
        {stage === 'paused' ? 'Go on' : 'Pause'}
      </Button>
      <Stop words={isOn || stage === 'ending' ? 'Stop' : 'Cancel'} />
    </div>
  );
}

function Stop({ words }: { readonly words: string }) {
  const isEnding = useStore(recording, ({ stage }) => stage === 'ending');
  const label = words === 'Stop' ? 'Stop recording' : 'Cancel recording';
  return (
    <Button small look="main" disabled={isEnding} label={label} onPress={() => void attempt(finishTalk)}>
      {words}
    </Button>
  );
}

/** "1:07". */
export function clockOf(seconds: number): string {
  return `${String(Math.floor(seconds / 60))}:${String(Math.floor(seconds) % 60).padStart(2, '0')}`;
}

function Time() {
  const stage = useStore(recording, (state) => state.stage);
  const seconds = useStore(recording, (state) => state.seconds);
  const words = stage === 'paused' ? 'Paused' : stage === 'recording' ? 'Recording' : 'Not yet recording';
  return (
    <span className={styles.time} data-stage={stage}>
      <span className={styles.dot} aria-hidden="true" />
      <span role="status" className={styles.spoken}>
        {words}
      </span>
      <span aria-label={`Recorded so far: ${clockOf(seconds)}`}>{clockOf(seconds)}</span>
    </span>
  );
}

/** How loud the voice is. */
function Meter() {
  const level = useStore(recording, (state) => state.level);
  if (level === null) return <span className={styles.without}>No sound</span>;
  return (
    <span
      role="meter"
      aria-label="Microphone level"
      aria-valuemin={0}
      aria-valuemax={100}
      aria-valuenow={Math.round(level * 100)}
      className={styles.meter}
    >
      <span style={{ width: `${String(Math.round(level * 100))}%` }} />
    </span>
  );
}

function Microphones() {
  const choices = useStore(recording, (state) => state.microphones);
  const chosen = useStore(recording, (state) => state.microphone);
  if (choices.length === 0) return null;
  return (
    <select
      aria-label="Microphone"
      className={styles.microphones}
      value={chosen ?? ''}
      onChange={({ target }) => void chooseMicrophone(target.value === '' ? null : target.value)}
    >
      <option value="">System’s microphone</option>
      {choices.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </select>
  );
}

/** Counts in, large and in the middle, where no hand is in its way. */
export function CountIn() {
  const stage = useStore(recording, (state) => state.stage);
  const left = useStore(recording, (state) => state.left);
  if (stage !== 'count-in') return null;
  return (
    <div className={styles.countIn} role="status" aria-label={`Recording in ${String(left)}`}>
      {left}
    </div>
  );
}
