import { useMemo } from 'react';
import { say } from '../../core/model/say.ts';
import { layOver } from '../../core/compare/lay-over.ts';
import type { LaidOver } from '../../core/compare/lay-over.ts';
import type { BookClip, BookSwing } from '../../core/model/book.ts';
import type { ClipIndex } from '../../core/time/clip-index.ts';
import { pair } from '../bench/state/companion.ts';
import { useKeys } from '../bench/surface/use-keys.ts';
import { app } from '../shell/state/app-state.ts';
import { useStore } from '../shell/state/store.ts';
import { useReport } from '../swing/use-report.ts';
import { compareHand } from './compare-hand.ts';
import { ComparedTable } from './compared-table.tsx';
import { ComparisonBar } from './comparison-bar.tsx';
import styles from './comparison-page.module.css';
import { Pictures } from './pictures.tsx';
import { SentencesOfChange } from './sentences-of-change.tsx';
import { comparedClips } from './state/comparing.ts';

/** Then and now: what changed in words, two large pictures that move together, and below them all that was compared. */
export function ComparisonPage() {
  const swing = useStore(app, (state) => state.swing);
  const then = useStore(app, (state) => state.then);
  const nowClip = useStore(app, (state) => comparedClips(state)?.now ?? null);
  const thenClip = useStore(app, (state) => comparedClips(state)?.then ?? null);
  const indexes = useStore(app, (state) => state.indexes);
  const report = useReport(swing, then)?.report ?? null;
  useKeys(compareHand);
  const [nowIndex, thenIndex] = [nowClip, thenClip].map((clip) => (clip === null ? undefined : indexes[clip.id]));
  const both = useMemo(
    () => compared({ swing, clip: nowClip, index: nowIndex }, { swing: then, clip: thenClip, index: thenIndex }),
    [swing, then, nowClip, thenClip, nowIndex, thenIndex],
  );
  if (both === null)
    return <p className={styles.gone}>{say`There is no earlier swing of this view to compare with.`}</p>;
  return (
    <div className={styles.page}>
      {report === null ? <div className={styles.sentences} /> : <SentencesOfChange report={report} />}
      <Pictures key={both.now.clip.id} both={both} />
      <ComparisonBar both={both} />
      {report === null ? null : <ComparedTable report={report} view={both.now.clip.view} />}
    </div>
  );
}

/** One of the two, with what is needed to show it. */
export interface ComparedSide {
  readonly swing: BookSwing;
  readonly clip: BookClip;
  readonly index: ClipIndex;
}

export interface Both {
  readonly now: ComparedSide;
  readonly then: ComparedSide;
  readonly laid: LaidOver;
  /** Then's frames go with now's. */
  readonly pairing: ReturnType<typeof pair>;
}

type Side = { readonly [part in keyof ComparedSide]: ComparedSide[part] | null | undefined };

function compared(now: Side, then: Side): Both | null {
  const [after, before] = [whole(now), whole(then)];
  if (after === null || before === null) return null;
  const playerOf = ({ clip, swing }: ComparedSide) => ({ clip, handedness: swing.lesson.handedness });
  const laid = layOver(playerOf(before), playerOf(after));
  return laid === null ? null : { now: after, then: before, laid, pairing: pair(after, before, 'then') };
}

function whole({ swing, clip, index }: Side): ComparedSide | null {
  const isHere = swing !== null && swing !== undefined && clip !== null && clip !== undefined;
  return isHere && index !== null && index !== undefined ? { swing, clip, index } : null;
}
