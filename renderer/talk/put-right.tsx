import { inFigures } from '../../core/model/language.ts';
import { useEffect, useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import type { BookSwing } from '../../core/model/book.ts';
import type { Talk } from '../../core/model/talk.ts';
import type { LessonReport } from '../../core/report/lesson-report.ts';
import { loudnessOfTalk } from '../../core/talk/on-time.ts';
import { silencesIn } from '../../core/talk/silence.ts';
import { talkLength } from '../../core/talk/talk-time.ts';
import { Button } from '../controls/button.tsx';
import { attempt } from '../shell/state/messages.ts';
import { useStore } from '../shell/state/store.ts';
import { changeTalk } from '../swing/state/edit-actions.ts';
import { Preview } from './preview.tsx';
import { clockOf } from './recording-controls.tsx';
import { cursor, forgetPart, goToTime, keepWithin, setPartEnd } from './state/cursor.ts';
import { loudnessOfTakes, readLoudness, takeKey } from './state/take-sound.ts';
import { recordTalk } from './state/talk.ts';
import { stopTalk, toggleTalkPlaying } from './state/talk-player.ts';
import { Waveform } from './waveform.tsx';
import styles from './put-right.module.css';

interface PutRightProps {
  readonly talk: Talk;
  readonly swing: BookSwing;
  readonly then: BookSwing | null;
  readonly report: LessonReport | null;
}

/** The talk-through as the video shows it, and its time: where it is heard, cut and said anew. */
export function PutRight({ talk, swing, then, report }: PutRightProps) {
  const swingId = swing.swing.id;
  const length = talkLength(talk);
  const known = useStore(loudnessOfTakes, (all) => all);
  useEffect(() => {
    for (const [take, { sound, length: long }] of talk.takes.entries())
      if (sound !== null && talk.pieces.some((piece) => piece.take === take)) void readLoudness(swingId, take, long);
  }, [talk, swingId]);
  const loudness = useMemo(() => loudnessOfTalk(talk, (take) => known[takeKey(swingId, take)]), [talk, known, swingId]);
  useEffect(() => keepWithin(length), [length]);
  // What is changed is not what is heard any more.
  useEffect(() => stopTalk, [talk]);
  return (
    <div className={styles.main}>
      <div className={styles.screen}>
        {report === null ? (
          <div className={styles.preview} />
        ) : (
          <Preview talk={talk} swing={swing} then={then} report={report} />
        )}
      </div>
      <Waveform talk={talk} loudness={loudness} />
      <Actions talk={talk} swingId={swingId} loudness={loudness} />
    </div>
  );
}

function Actions(props: { readonly talk: Talk; readonly swingId: string; readonly loudness: Float32Array }) {
  const { talk, swingId, loudness } = props;
  const time = useStore(cursor, (state) => state.time);
  const playing = useStore(cursor, (state) => state.playing);
  const part = useStore(cursor, (state) => state.part);
  const length = talkLength(talk);
  const silences = useMemo(() => silencesIn(loudness).filter(({ to }) => to <= length), [loudness, length]);
  const quiet = silences.reduce((sum, { from, to }) => sum + to - from, 0) / 1000;
  const isAtEnd = time >= length;
  const cutPart = (): void => {
    if (part === null) return;
    changeTalk({ kind: 'cut', spans: [part] });
    forgetPart();
    goToTime(part.from, length);
  };
  return (
    <div className={styles.actions}>
      <Button onPress={() => toggleTalkPlaying(swingId, talk)}>{playing ? say`Stop` : say`Play`}</Button>
      <span className={styles.clock}>
        {clockOf(time / 1000)} / {clockOf(length / 1000)}
      </span>
      <Button
        look="quiet"
        hint={say`What follows here is said anew. It can be undone.`}
        onPress={() => void attempt(() => recordTalk(isAtEnd ? undefined : time))}
      >
        {isAtEnd ? say`Record on` : say`Record anew from here`}
      </Button>
      <span className={styles.gap} />
      <Button
        look="quiet"
        small
        label={say`Part from here`}
        onPress={() => setPartEnd('from', length)}
      >{say`Part from`}</Button>
      <Button
        look="quiet"
        small
        label={say`Part to here`}
        onPress={() => setPartEnd('to', length)}
      >{say`Part to`}</Button>
      <Button disabled={part === null} small onPress={cutPart}>
        {part === null ? say`Cut part` : say`Cut part, ${inFigures(((part.to - part.from) / 1000).toFixed(1))} s`}
      </Button>
      {part === null ? null : (
        <Button look="quiet" small label={say`Choose no part`} onPress={forgetPart}>
          ×
        </Button>
      )}
      <Button
        look="quiet"
        small
        disabled={silences.length === 0}
        onPress={() => changeTalk({ kind: 'cut', spans: [...silences] })}
      >
        {silences.length === 0 ? say`No silence to cut` : say`Cut silence, ${inFigures(quiet.toFixed(1))} s`}
      </Button>
    </div>
  );
}
