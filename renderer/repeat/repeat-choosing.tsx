import { useMemo, useState } from 'react';
import {
  SUGGESTED_FRAMES,
  SUGGESTED_POINTS,
  SUGGESTED_ROUNDS,
  pointsToRepeat,
  repeatCandidates,
} from '../../core/measure/repeat/plan-check.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import type { RepeatCandidate } from '../../core/measure/repeat/plan-check.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { placing } from './state/placing.ts';
import { beginPlacing } from './state/repeat-check.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { Check, Choice } from '../controls/fields.tsx';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';

/** Which marked frames are shown again, and which of their points are placed. */
export function RepeatChoosing() {
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const known = useStore(placing, (state) => state.errors.known);
  const candidates = useMemo(() => repeatCandidates([...(swing?.clips ?? []), ...(then?.clips ?? [])]), [swing, then]);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(
    () => new Set(candidates.slice(0, SUGGESTED_FRAMES).map(nameOf)),
  );
  const [points, setPoints] = useState<'some' | 'all'>('some');
  if (swing === null) return <p>Open a swing with marked frames first; its frames are what is placed again.</p>;
  if (candidates.length === 0) return <p>Mark a frame of this swing first; its points are what is placed again.</p>;

  const most = points === 'all' ? Infinity : SUGGESTED_POINTS;
  const choices = candidates
    .filter((candidate) => chosen.has(nameOf(candidate)))
    .map((candidate) => ({
      clipId: candidate.clipId,
      frame: candidate.frame,
      points: pointsToRepeat(candidate, known, most),
    }));
  const placings = SUGGESTED_ROUNDS * choices.reduce((sum, each) => sum + each.points.length, 0);
  return (
    <>
      <fieldset className={styles.frames}>
        <legend>Frames to show again</legend>
        {candidates.map((candidate) => {
          const name = nameOf(candidate);
          return (
            <Check
              key={name}
              checked={chosen.has(name)}
              onChange={(on) =>
                setChosen((before) => new Set([...before].filter((each) => each !== name).concat(on ? [name] : [])))
              }
            >
              {wordsFor(
                candidate,
                swing.clips.some(({ id }) => id === candidate.clipId) ? null : (then?.lesson.date ?? null),
              )}
            </Check>
          );
        })}
      </fieldset>
      <Choice
        label="Points on each frame"
        value={points}
        options={[
          { value: 'some', label: `Up to ${String(SUGGESTED_POINTS)}, those not checked yet first` },
          { value: 'all', label: 'All that are marked' },
        ]}
        onChange={setPoints}
      />
      <p>
        {`Each frame is shown twice more: ${String(placings)} placings. `}
        Place them as you always do. Esc leaves the check; one that is left half way is dropped.
      </p>
      <div className={lay.row}>
        <Button look="main" disabled={placings === 0} onPress={() => beginPlacing(choices)}>
          Begin
        </Button>
      </div>
    </>
  );
}

function nameOf({ clipId, frame }: RepeatCandidate): string {
  return `${clipId} ${String(frame.index)}`;
}

function wordsFor({ checkpoint, view, frame, points }: RepeatCandidate, earlier: string | null): string {
  const name = checkpoint === null ? `Frame ${String(frame.index)}` : CHECKPOINT_LABELS[checkpoint];
  const lesson = earlier === null ? '' : `, ${dayInWords(earlier)}`;
  const count = points.length === 1 ? '1 point' : `${String(points.length)} points`;
  return `${name}, ${VIEW_LABELS[view].toLowerCase()}${lesson}: ${count}`;
}
