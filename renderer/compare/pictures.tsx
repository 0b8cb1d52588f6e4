import { useEffect, useMemo, useRef } from 'react';
import type { ReactNode } from 'react';
import { say } from '../../core/model/say.ts';
import type { Affine } from '../../core/compare/lay-over.ts';
import type { BookClip } from '../../core/model/book.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { carriedIds, marksShownOn } from '../../core/model/swing.ts';
import { playerOfBoth } from '../../core/painting/crop.ts';
import { drawListOf } from '../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../core/painting/mark-labels.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { LookedAt } from '../bench/surface/looked-at.tsx';
import { LightNote } from '../bench/surface/light-note.tsx';
import type { PictureSource } from '../bench/surface/use-picture.ts';
import { usePointer } from '../bench/surface/use-pointer.ts';
import { benchView, resize, showPicture } from '../canvas/bench-view.ts';
import { setCompanionPicture, setShownPicture } from '../canvas/shown-picture.ts';
import { app } from '../shell/state/app-state.ts';
import { useStore } from '../shell/state/store.ts';
import { frameInWords } from '../shell/words.ts';
import type { Both, ComparedSide } from './comparison-page.tsx';
import styles from './comparison-page.module.css';
import { Fade, Zoom } from './picture-tools.tsx';
import { laying } from './state/comparing.ts';

/** Two panels of equal size, or one with both; what is moved in one of them moves in the other. */
export function Pictures({ both }: { readonly both: Both }) {
  const { now, then, laid, pairing } = both;
  const by = useStore(laying, (state) => state.by);
  const over = by === 'over';
  const carry = over ? laid.over : laid.beside;
  const { width, height } = now.clip;
  const player = useMemo(() => playerOfBoth(then.clip, now.clip, laid.beside), [then.clip, now.clip, laid.beside]);
  // Marks that are undone meanwhile do not move the picture.
  const first = useRef(player);
  useEffect(() => {
    showPicture({ width, height }, first.current);
  }, [width, height, by]);

  const nowSource = useMemo(() => sourceOfNow(now.clip.id), [now.clip.id]);
  const { lock, needs } = pairing;
  const thenSource = useMemo(() => sourceOfThen(now.clip.id, lock, carry), [now.clip.id, lock, carry]);
  const at = useStore(app, (state) => state.comparing?.index ?? 0);
  const thenAt = lock?.frameFor(at) ?? 0;
  const nowPicture = <Picture side={now} which="now" at={at} source={nowSource} />;
  const thenPicture =
    lock === null ? (
      <p className={styles.needs}>{needs}</p>
    ) : (
      <Picture key={by} side={then} which="then" at={thenAt} source={thenSource} />
    );
  return (
    <section className={styles.pictures} data-by={by} aria-label={say`Pictures of then and now`}>
      {over ? (
        <Panel label={say`Then over now`}>
          {nowPicture}
          <Fading>{thenPicture}</Fading>
          <Plate side={now} which="now" at={at} />
          {lock === null ? null : <Plate side={then} which="then" at={thenAt} />}
        </Panel>
      ) : (
        <>
          <Panel label={say`Then`}>
            {thenPicture}
            {lock === null ? null : <Plate side={then} which="then" at={thenAt} />}
          </Panel>
          <Panel label={say`Now`}>
            {nowPicture}
            <Plate side={now} which="now" at={at} />
          </Panel>
        </>
      )}
      {over && lock !== null ? <Fade laid={laid} /> : null}
      <Zoom />
      <LightNote />
    </section>
  );
}

/** A place for a picture that is zoomed and moved like the bench's. */
function Panel({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  const ref = useRef<HTMLDivElement>(null);
  const panning = usePointer(ref, cancelNothing, ALWAYS);
  return (
    <div ref={ref} className={styles.panel} tabIndex={0} role="group" aria-label={label} data-panning={panning}>
      {children}
    </div>
  );
}

const ALWAYS = { alwaysPans: true };
const cancelNothing = (): void => undefined;

/** Then, as far as the slider or the flicker key lets it be seen. */
function Fading({ children }: { readonly children: ReactNode }) {
  const opacity = useStore(laying, ({ then, flicked }) => (flicked ? 1 : then));
  return (
    <div className={styles.fading} style={{ opacity }} data-opacity={opacity}>
      {children}
    </div>
  );
}

interface PictureProps {
  readonly side: ComparedSide;
  readonly which: 'then' | 'now';
  readonly at: number;
  readonly source: Omit<PictureSource, 'painted'>;
}

function Picture({ side: { clip, index }, which, at, source }: PictureProps) {
  const marksOf = useMemo(() => marksOfClip(clip, index, which), [clip, index, which]);
  const label = `${which === 'then' ? say`Then` : say`Now`}, ${frameInWords(clip, index, at)}`;
  return <LookedAt {...{ clip, label, source, marksOf }} frames={index.frames} />;
}

function marksOfClip(clip: BookClip, index: ClipIndex, look: 'then' | 'now') {
  return (frame: number) => {
    const shown = index.frames[frame];
    if (shown === undefined) return [];
    const marks = marksShownOn(clip, { index: frame, pts: shown.pts });
    const { width, height } = clip;
    return drawListOf(marks, {
      look,
      width,
      height,
      labels: labelTextsOf(marks, clip),
      quiet: carriedIds(clip, frame),
    });
  };
}

function Plate({ side, which, at }: Omit<PictureProps, 'source'>) {
  return (
    <span className={styles.plate} data-look={which}>
      <strong>{which === 'then' ? say`Then` : say`Now`}</strong> <span>{dayInWords(side.swing.lesson.date)}</span>{' '}
      <span className={styles.frame}>{frameInWords(side.clip, side.index, at)}</span>
    </span>
  );
}

type Source = Omit<PictureSource, 'painted'>;

function sourceOfNow(clipId: string): Source {
  return {
    view: () => benchView.get().view,
    resized: resize,
    wanted() {
      const { comparing } = app.get();
      return comparing?.clipId === clipId ? { index: comparing.index } : null;
    },
    shown: (index, quality) => setShownPicture({ clip: clipId, index, quality }),
    gone: () => setShownPicture(null),
    follows: benchView,
  };
}

function sourceOfThen(nowId: string, lock: Both['pairing']['lock'], carry: Affine): Source {
  return {
    view: () => benchView.get().view,
    laid: () => carry,
    wanted() {
      const { comparing } = app.get();
      if (comparing?.clipId !== nowId || lock === null) return null;
      const index = lock.frameFor(comparing.index);
      setCompanionPicture({ wanted: index });
      return { index };
    },
    shown: (index) => setCompanionPicture({ shown: index }),
    gone: () => setCompanionPicture(null),
    follows: benchView,
  };
}
