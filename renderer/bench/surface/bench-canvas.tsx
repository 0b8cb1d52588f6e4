import { useEffect, useMemo, useRef } from 'react';
import type { BookClip } from '../../../core/model/book.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import { carriedIds, marksShownOn } from '../../../core/model/swing.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../../core/painting/mark-labels.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { benchView, centre, reach, showWhole } from '../../canvas/bench-view.ts';
import { setBenchMarks } from '../../canvas/bench-content.ts';
import { createStage } from '../../canvas/stage.ts';
import type { Stage } from '../../canvas/stage.ts';
import { app } from '../../shell/state/app-state.ts';
import { pointAskedFor, sendToTool } from '../state/bench-actions.ts';
import { groundPlan } from '../state/ground-plan.ts';
import { run, stopPlayback } from '../playback/state/playback.ts';
import { settings } from '../../shell/state/settings.ts';
import { startsFor } from '../state/starts.ts';
import type { Starts } from '../state/starts.ts';
import { useStore } from '../../shell/state/store.ts';
import { withMarks } from '../../swing/state/swing-edit.ts';
import { leftUnseen, unseenMarks, unseenOn } from '../../swing/state/unseen-marks.ts';
import type { Target } from '../../tools/target.ts';
import styles from '../bench-page.module.css';
import { Loupe } from './loupe.tsx';
import { nudgeKeysInWords } from '../../shell/key-words.ts';
import { nextOnBench } from '../../shell/next-step.ts';
import { PictureFilter } from './picture-filter.tsx';
import { aheadWords, pictureWords } from './picture-words.ts';
import { pathRings, ringsOf, startRings, unseenRings } from './rings.ts';
import { hintFor } from '../tool-words.ts';
import type { BenchSources } from './shown-sources.ts';
import { benchPictureOf } from './bench-picture.ts';
import { useBenchPointer } from './use-bench-pointer.ts';
import { useLate } from '../../shell/use-late.ts';
import { usePicture } from './use-picture.ts';
import { frameInWords } from '../../shell/words.ts';

export interface BenchCanvasProps {
  readonly clip: BookClip;
  readonly index: ClipIndex;
  readonly sources: BenchSources;
}

const NO_STARTS: Starts = {};
const NO_TARGETS: readonly Target[] = [];

/** The frame with its marks: the picture on a canvas of its own, the marks on a transparent one above it. */
export function BenchCanvas({ clip, index, sources }: BenchCanvasProps) {
  const wrapRef = useRef<HTMLDivElement>(null);
  const hostRef = useRef<HTMLDivElement>(null);
  const pictureRef = useRef<HTMLCanvasElement>(null);
  const stageRef = useRef<Stage | null>(null);
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const picture = useStore(app, (state) => state.bench?.picture ?? 'coming');
  const draft = useStore(app, (state) => state.bench?.draft ?? null);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const tool = useStore(app, (state) => state.bench?.tool);
  const asked = useStore(app, pointAskedFor);
  const running = useStore(run, (state) => state.running);
  const look = useStore(app, (state) => (state.then === null ? 'plain' : 'now'));

  const source = useMemo(() => benchPictureOf(clip.id), [clip.id]);
  const repaint = usePicture(pictureRef, clip, index.frames, source);
  const panning = useBenchPointer(wrapRef);
  const late = useLate(picture === 'coming');

  useEffect(() => {
    showWhole({ width: clip.width, height: clip.height });
  }, [clip.width, clip.height]);

  useEffect(() => {
    const host = hostRef.current;
    if (host === null) return;
    // fabric wraps the canvas in elements of its own, so it gets one that React does not know.
    const element = document.createElement('canvas');
    host.append(element);
    const send = (type: 'down' | 'move' | 'up') => (place: { x: number; y: number }) => {
      // Who presses on the picture wants this one: the run stops here.
      if (type === 'down' && stopPlayback()) return;
      sendToTool({ type, at: place }, reach(), centre());
    };
    const stage = createStage(element, { down: send('down'), move: send('move'), up: send('up') });
    stageRef.current = stage;
    const follow = () => {
      const { view, size } = benchView.get();
      stage.setView(view, size.width, size.height);
      repaint.current();
    };
    follow();
    // The text beside the marks has the size of all other text.
    const stops = [benchView.subscribe(follow), settings.subscribe(follow)];
    return () => {
      for (const stop of stops) stop();
      stageRef.current = null;
      void stage.dispose().then(() => host.replaceChildren());
    };
  }, [repaint]);

  const isPlacing = tool?.tool === 'points';
  const isFollowing = tool?.tool === 'path';
  const plan = useStore(groundPlan, (typed) => typed.plan);
  const follows = useStore(app, (state) => state.bench?.follows ?? 'clubhead');
  const shown = index.frames[at];
  const drawn = useMemo(() => (draft === null ? clip : withMarks(clip, draft)), [draft, clip]);
  const marks: FrameMarks | null = useMemo(
    () => (shown === undefined ? null : marksShownOn(drawn, { index: at, pts: shown.pts })),
    [drawn, at, shown],
  );
  const unseen = useStore(unseenMarks, (all) => (shown === undefined ? null : unseenOn(all, clip.id, shown.pts)));
  const ahead = useMemo(() => (unseen === null ? NO_TARGETS : leftUnseen(clip, unseen)), [unseen, clip]);
  // A draft is of this frame; starts come from the frames before it.
  const starts = isPlacing ? startsFor(clip, at) : NO_STARTS;
  const here = useMemo(
    () => (isFollowing && marks !== null ? pathRings(marks, follows) : []),
    [isFollowing, marks, follows],
  );
  useEffect(() => {
    if (marks === null) return;
    const labels = labelTextsOf(marks, drawn);
    const quiet = carriedIds(drawn, at);
    const own = drawListOf(marks, { look, width: clip.width, height: clip.height, labels, quiet });
    const items = [...own, ...sources.lines];
    const rings = [...here, ...ringsOf(marks, selected, sources), ...unseenRings(marks, ahead)];
    const over = [...startRings(marks, starts, asked), ...rings];
    stageRef.current?.setMarks(items, over, draft !== null);
    setBenchMarks(items);
  }, [marks, draft, selected, sources, drawn, clip.width, clip.height, look, at, asked, starts, here, ahead]);

  const words = frameInWords(clip, index, at);
  const hasStart = asked !== null && starts[asked] !== undefined;
  const next = useStore(app, (state) => nextOnBench(clip, at, state.bench?.looksFor ?? null));
  const nudge = nudgeKeysInWords();
  const hintScene = { selected, asked, hasStart, follows, hasPlace: here.length > 0, next, plan, nudge };
  return (
    <div
      ref={wrapRef}
      className={styles.stage}
      tabIndex={0}
      role="application"
      aria-label={`Picture of ${words}, ${picture === 'exact' ? 'exact' : 'coming'}`}
      data-picture={picture}
      data-late={late}
      data-tool={tool?.tool ?? 'move'}
      data-panning={panning}
    >
      <canvas ref={pictureRef} aria-hidden="true" />
      <div ref={hostRef} className={styles.over} />
      <Loupe clip={clip} stageRef={wrapRef} />
      <PictureFilter stageRef={wrapRef} />
      <div className={styles.state}>
        <span>{pictureWords(picture, running, at)}</span>
        <span role="status">{aheadWords(ahead.length, picture)}</span>
      </div>
      {tool === undefined ? null : <span className={styles.hint}>{hintFor(tool, hintScene)}</span>}
    </div>
  );
}
