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
import { acceptFollowed, dropFollowed, followOn, followsFrom } from '../state/followed.ts';
import { followed, openPlaces } from '../state/open-places.ts';
import { keepMarks } from '../../swing/state/edit-actions.ts';
import { useStore } from '../../shell/state/store.ts';
import { withoutTarget } from '../../tools/change-marks.ts';
import { placeOnPath } from '../../tools/path-tool.ts';
import type { PathScene } from '../../tools/path-tool.ts';
import { frameWithPts } from '../../../core/time/frame-table.ts';
import { attempt } from '../../shell/state/messages.ts';
import { arcProgress } from './arc-progress.ts';
import styles from '../bench-page.module.css';
import lay from '../../controls/lay.module.css';
import { Button } from '../../controls/button.tsx';
import { LOST_WORDS, PATH_TITLES, SUBJECT_LABELS, placesInWords } from './path-words.ts';

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
      <h2>{PATH_TITLES[follows]}</h2>
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
      <Followed clip={clip} marks={marks} path={path} />
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

/** Following by the program: what it proposes counts when the coach says so. */
function Followed({
  clip,
  marks,
  path,
}: {
  readonly clip: BookClip;
  readonly marks: FrameMarks;
  readonly path: PathScene;
}) {
  const busy = useStore(app, (state) => state.jobs.length > 0);
  const chains = useStore(followed, (all) => all[clip.id]);
  const index = useStore(app, (state) => state.indexes[clip.id]);
  const { subject, shape } = path;
  const { places, lost } = openPlaces(chains ?? [], shape, subject);
  const lostOn = lost === null || index === undefined ? null : frameWithPts(index, lost.pts);
  return (
    <>
      {places.length === 0 ? null : (
        <>
          <p>{places.length === 1 ? say`1 place is proposed.` : say`${String(places.length)} places are proposed.`}</p>
          <div className={styles.row}>
            <Button
              look="main"
              small
              hint={say`They count where they stand, with a wider ±, until you move them.`}
              onPress={() => acceptFollowed(clip, marks, subject)}
            >{say`Accept all that are left`}</Button>
            <Button small look="quiet" onPress={() => dropFollowed(clip.id, subject)}>{say`Drop them`}</Button>
          </div>
          <p>{say`Look through them: a click puts one elsewhere, and what comes after it goes.`}</p>
        </>
      )}
      {lost === null || lostOn === null ? null : (
        <p role="status">
          {say`Lost on frame ${String(lostOn)}: ${LOST_WORDS[lost.why]}. Click it there, then follow it on.`}
        </p>
      )}
      {followsFrom(path) === null ? null : (
        <Button
          small
          disabled={busy}
          hint={say`Baybook follows it over the frames that come, until it is lost. You say whether that is right.`}
          onPress={() => void attempt(() => followOn(clip, marks, subject))}
        >{say`Follow it on`}</Button>
      )}
    </>
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
