import { useMemo, useState } from 'react';
import { lowered, say } from '../../core/model/say.ts';
import {
  SUGGESTED_FRAMES,
  SUGGESTED_POINTS,
  SUGGESTED_ROUNDS,
  namingCandidates,
  pointsToRepeat,
  repeatCandidates,
} from '../../core/measure/repeat/plan-check.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import type { NamingCandidate, RepeatCandidate } from '../../core/measure/repeat/plan-check.ts';
import { CHECKPOINT_LABELS, VIEW_LABELS } from '../../core/model/words.ts';
import { app } from '../shell/state/app-state.ts';
import { placing } from './state/placing.ts';
import { beginCheck } from './state/repeat-check.ts';
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
  const names = useMemo(() => namingCandidates([...(swing?.clips ?? []), ...(then?.clips ?? [])]), [swing, then]);
  const [isNamed, setNamed] = useState<ReadonlySet<string>>(
    () => new Set(names.filter(({ clipId }) => clipId === names[0]?.clipId).map(nameOfNaming)),
  );
  const [points, setPoints] = useState<'some' | 'all'>('some');
  if (swing === null) return <p>{say`Open a swing with marked frames first; its frames are what is placed again.`}</p>;
  if (candidates.length + names.length === 0)
    return <p>{say`Mark a frame of this swing first; its points are what is placed again.`}</p>;

  const earlierOf = ({ clipId }: { readonly clipId: string }): string =>
    then === null || swing.clips.some(({ id }) => id === clipId) ? '' : `, ${dayInWords(then.lesson.date)}`;
  const most = points === 'all' ? Infinity : SUGGESTED_POINTS;
  const choices = candidates
    .filter((candidate) => chosen.has(nameOf(candidate)))
    .map((candidate) => ({
      clipId: candidate.clipId,
      frame: candidate.frame,
      points: pointsToRepeat(candidate, known, most),
    }));
  const named = names.filter((each) => isNamed.has(nameOfNaming(each)));
  const placings = SUGGESTED_ROUNDS * choices.reduce((sum, each) => sum + each.points.length, 0);
  return (
    <>
      <fieldset className={styles.frames}>
        <legend>{say`Frames to show again`}</legend>
        {candidates.map((candidate) => {
          const name = nameOf(candidate);
          return (
            <Check
              key={name}
              checked={chosen.has(name)}
              onChange={(on) => setChosen((before) => turned(before, name, on))}
            >
              {wordsFor(candidate, earlierOf(candidate))}
            </Check>
          );
        })}
      </fieldset>
      <Choice
        label={say`Points on each frame`}
        value={points}
        options={[
          { value: 'some', label: say`Up to ${String(SUGGESTED_POINTS)}, those not checked yet first` },
          { value: 'all', label: say`All that are marked` },
        ]}
        onChange={setPoints}
      />
      {names.length === 0 ? null : (
        <fieldset className={styles.frames}>
          <legend>{say`Frames to find and name again`}</legend>
          {names.map((each) => {
            const name = nameOfNaming(each);
            const words = `${CHECKPOINT_LABELS[each.checkpoint]}, ${lowered(VIEW_LABELS[each.view])}${earlierOf(each)}`;
            return (
              <Check
                key={name}
                checked={isNamed.has(name)}
                onChange={(on) => setNamed((before) => turned(before, name, on))}
              >
                {words}
              </Check>
            );
          })}
        </fieldset>
      )}
      <p>{say`Each is shown twice more: ${String(placings)} placings, ${String(SUGGESTED_ROUNDS * named.length)} namings. Place and name as you always do. Esc leaves the check; one that is left half way is dropped.`}</p>
      <div className={lay.row}>
        <Button
          look="main"
          disabled={placings + named.length === 0}
          onPress={() => beginCheck(named, choices)}
        >{say`Begin`}</Button>
      </div>
    </>
  );
}

function nameOf({ clipId, frame }: RepeatCandidate): string {
  return `${clipId} ${String(frame.index)}`;
}

function nameOfNaming({ clipId, checkpoint }: NamingCandidate): string {
  return `${clipId} ${checkpoint}`;
}

function turned(names: ReadonlySet<string>, name: string, on: boolean): ReadonlySet<string> {
  return new Set([...names].filter((each) => each !== name).concat(on ? [name] : []));
}

function wordsFor({ checkpoint, view, frame, points }: RepeatCandidate, lesson: string): string {
  const name = checkpoint === null ? say`Frame ${String(frame.index)}` : CHECKPOINT_LABELS[checkpoint];
  const count = points.length === 1 ? say`1 point` : say`${String(points.length)} points`;
  return `${name}, ${lowered(VIEW_LABELS[view])}${lesson}: ${count}`;
}
