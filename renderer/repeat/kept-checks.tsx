import { useState } from 'react';
import { say } from '../../core/model/say.ts';
import { daysInWords } from '../../core/measure/repeat/day-spread.ts';
import { namingsInWords } from '../../core/measure/repeat/naming-spread.ts';
import type { RepeatCheck } from '../../core/model/repeat-check.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { attempt } from '../shell/state/messages.ts';
import { placing, removeCheck } from './state/placing.ts';
import { useStore } from '../shell/state/store.ts';
import { Button } from '../controls/button.tsx';
import { ConfirmDialog } from '../controls/dialog.tsx';
import { PlacingTable } from './placing-table.tsx';
import styles from './repeat-page.module.css';
import lay from '../controls/lay.module.css';

/** The placing errors in use and the checks they come from; each check can be taken away. */
export function KeptChecks() {
  const checks = useStore(placing, (state) => state.checks);
  const frames = checks.flatMap((check) => check.frames);
  const [removing, setRemoving] = useState<RepeatCheck | null>(null);
  if (checks.length === 0)
    return <p className={lay.soft}>{say`No repeat check is kept yet: 3 px are assumed for every point.`}</p>;
  return (
    <section aria-label={say`Numbers in use`} className={styles.section}>
      <h3>{say`Numbers in use`}</h3>
      {frames.length === 0 ? null : <PlacingTable frames={frames} />}
      {namingsInWords(checks.flatMap(({ namings }) => namings)).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p>{daysInWords(checks)}</p>
      <ul className={styles.checks} aria-label={say`Kept repeat checks`}>
        {checks.map((check) => (
          <li key={check.id}>
            <span>{wordsFor(check)}</span>
            <Button
              small
              label={say`Remove the check of ${wordsFor(check)}`}
              onPress={() => setRemoving(check)}
            >{say`Remove`}</Button>
          </li>
        ))}
      </ul>
      {removing === null ? null : (
        <ConfirmDialog
          title={say`Remove this repeat check?`}
          what={say`Its placings are deleted, and readings no longer count with them. This cannot be taken back.`}
          doIt={say`Remove it`}
          onDo={() => void attempt(() => removeCheck(removing.id))}
          onClose={() => setRemoving(null)}
        />
      )}
    </section>
  );
}

function wordsFor({ at, frames, namings }: RepeatCheck): string {
  const placings = frames.reduce(
    (sum, frame) => sum + Object.values(frame.placings).reduce((inner, places) => inner + places.length - 1, 0),
    0,
  );
  const count = frames.length === 1 ? say`1 frame` : say`${String(frames.length)} frames`;
  const named = namings.reduce((sum, { after }) => sum + after.length - 1, 0);
  const parts = [
    frames.length === 0 ? [] : [count, say`${String(placings)} placings`],
    named === 0 ? [] : [say`${String(named)} namings`],
  ];
  return [dayInWords(localDay(at)), ...parts.flat()].join(', ');
}

/** The day that it was where the coach is. */
function localDay(instant: string): string {
  const date = new Date(instant);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${String(date.getFullYear())}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
