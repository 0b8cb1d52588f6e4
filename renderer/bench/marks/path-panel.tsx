import { useMemo } from 'react';
import { say } from '../../../core/model/say.ts';
import { said } from '../../controls/said.tsx';
import { readSwing } from '../../../core/measure/readings/read-swing.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { PATH_SUBJECTS } from '../../../core/model/mark.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { markedSwingOf } from '../../../core/model/swing.ts';
import { app } from '../../shell/state/app-state.ts';
import { follow, pathScene } from '../state/bench-actions.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { useStore } from '../../shell/state/store.ts';
import { withoutTarget } from '../../tools/change-marks.ts';
import { placeOnPath } from '../../tools/path-tool.ts';
import { arcProgress } from './arc-progress.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { Button } from '../../controls/button.tsx';
import { SUBJECT_LABELS, placesInWords } from './path-words.ts';

/** What the path tool follows, and how far it has come. */
export function PathPanel({ clip, marks }: { readonly clip: BookClip; readonly marks: FrameMarks }) {
  const follows = useStore(app, (state) => state.bench?.follows ?? 'clubhead');
  const frames = useStore(app, (state) => state.indexes[clip.id]?.frames);
  const path = useMemo(() => pathScene(clip, marks, follows), [clip, marks, follows]);
  const { shape, home } = path;
  const numbers = useMemo(() => {
    const stamps = new Set(shape?.places.map(({ pts }) => pts));
    return (frames ?? []).flatMap(({ pts }, index) => (stamps.has(pts) ? [index] : []));
  }, [shape, frames]);
  const here = placeOnPath(path) !== null;
  return (
    <section className={styles.card} aria-label={say`Path`}>
      <h2>{follows === 'hands' ? say`Path of the hands` : say`Path of the clubhead`}</h2>
      <div className={styles.row} role="group" aria-label={say`What the path follows`}>
        {PATH_SUBJECTS.map((subject) => (
          <Button key={subject} small pressed={subject === follows} onPress={() => follow(subject)}>
            {SUBJECT_LABELS[subject]}
          </Button>
        ))}
      </div>
      <p role="status">
        {placesInWords(numbers)} {here || shape === null ? '' : say`No place on this frame yet.`}
      </p>
      <p className={lay.soft}>{said`${
        here
          ? say`Drag its place on this frame, or Delete takes it away.`
          : say`Click it on this frame; the next frame comes by itself.`
      } Backspace goes back a frame.`}</p>
      {follows === 'clubhead' ? <GoodFor clip={clip} /> : null}
      {shape === null ? null : (
        <div className={styles.row}>
          <Button
            small
            look="warning"
            onPress={() => keepMarks(clip.id, withoutTarget(home, { kind: 'shape', id: shape.id, handle: null }))}
          >{say`Delete path`}</Button>
        </div>
      )}
    </section>
  );
}

/** What the clubhead's path is good for, so that nobody has to know of the arc to find it. */
function GoodFor({ clip }: { readonly clip: BookClip }) {
  const swing = useStore(app, (state) => state.swing);
  const progress = useMemo(
    () => (swing === null ? null : arcProgress(clip, readSwing(markedSwingOf(swing)))),
    [swing, clip],
  );
  if (progress === null) return null;
  return (
    <>
      <p className={lay.soft}>{progress.words}</p>
      {progress.wants.map((want) => (
        <p key={want}>{want}</p>
      ))}
    </>
  );
}
