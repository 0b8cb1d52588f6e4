import { useEffect } from 'react';
import { say } from '../../core/model/say.ts';
import { Button } from '../controls/button.tsx';
import { keyTitle, withKey } from '../shell/key-words.ts';
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
      <div className={styles.controls} role="group" aria-label={say`Recording`}>
        <Button small onPress={() => void attempt(tryMicrophoneAgain)}>{say`Try again`}</Button>
        <Button small onPress={() => void attempt(recordWithoutSound)}>{say`Record without sound`}</Button>
        <Stop isOn={false} />
      </div>
    );
  const isOn = stage === 'recording' || stage === 'paused';
  return (
    <div className={styles.controls} role="group" aria-label={say`Recording`}>
      <Time />
      <Meter />
      <Microphones />
      <Button small look="quiet" disabled={!isOn} hint={keyTitle('pause')} onPress={togglePause}>
        {stage === 'paused' ? say`Go on` : say`Pause`}
      </Button>
      <Stop isOn={isOn || stage === 'ending'} />
    </div>
  );
}

function Stop({ isOn }: { readonly isOn: boolean }) {
  const isEnding = useStore(recording, ({ stage }) => stage === 'ending');
  const label = isOn ? say`Stop recording` : say`Cancel recording`;
  return (
    <Button
      small
      look="main"
      disabled={isEnding}
      label={label}
      hint={withKey(label, 'record')}
      onPress={() => void attempt(finishTalk)}
    >
      {isOn ? say`Stop` : say`Cancel`}
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
  const words = stage === 'paused' ? say`Paused` : stage === 'recording' ? say`Recording` : say`Not yet recording`;
  return (
    <span className={styles.time} data-stage={stage}>
      <span className={styles.dot} aria-hidden="true" />
      <span role="status" {...(stage === 'paused' ? {} : { className: styles.spoken })}>
        {words}
      </span>
      <span aria-label={say`Recorded so far: ${clockOf(seconds)}`}>{clockOf(seconds)}</span>
    </span>
  );
}

/** How loud the voice is. */
function Meter() {
  const level = useStore(recording, (state) => state.level);
  if (level === null) return <span className={styles.without}>{say`No sound`}</span>;
  return (
    <span
      role="meter"
      title={say`Microphone level`}
      aria-label={say`Microphone level`}
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
      aria-label={say`Microphone`}
      title={say`Microphone`}
      className={styles.microphones}
      value={chosen ?? ''}
      onChange={({ target }) => void chooseMicrophone(target.value === '' ? null : target.value)}
    >
      <option value="">{say`System’s microphone`}</option>
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
    <div className={styles.countIn} role="status" aria-label={say`Recording in ${String(left)}`}>
      {left}
    </div>
  );
}
