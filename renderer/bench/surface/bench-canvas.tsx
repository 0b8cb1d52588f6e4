import { useEffect, useMemo } from 'react';
import { say } from '../../../core/model/say.ts';
import type { BookClip } from '../../../core/model/book.ts';
import { carriedIds, marksShownOn } from '../../../core/model/swing.ts';
import { playerOfClip } from '../../../core/painting/crop.ts';
import { drawListOf } from '../../../core/painting/draw-list.ts';
import { labelTextsOf } from '../../../core/painting/mark-labels.ts';
import { bodyPlaces } from '../../../core/painting/plain-marks.ts';
import type { ClipIndex } from '../../../core/time/clip-index.ts';
import { showRound } from '../../canvas/bench-view.ts';
import { app } from '../../shell/state/app-state.ts';
import { pathScene, pointAskedFor } from '../state/bench-actions.ts';
import { followed, openPlaces } from '../state/open-places.ts';
import { groundPlan } from '../state/ground-plan.ts';
import { run } from '../playback/state/playback.ts';
import { openProposals, proposals } from '../state/open-proposals.ts';
import { pointsWithName, proposalWords } from '../state/proposals.ts';
import { openOnNamed, proposedPoints } from '../state/proposed-points.ts';
import { startsFor } from '../state/starts.ts';
import type { Starts } from '../state/starts.ts';
import { useStore } from '../../shell/state/store.ts';
import { marksOn, withMarks } from '../../swing/state/swing-edit.ts';
import { leftUnseen, unseenMarks, unseenOn } from '../../swing/state/unseen-marks.ts';
import type { Target } from '../../tools/target.ts';
import { nudgeKeysInWords } from '../../shell/key-words.ts';
import { nextOnBench } from '../../shell/next-step.ts';
import { aheadWords, pictureWords } from './picture-words.ts';
import { followedRings, pathRings, ringsOf, startRings, unseenRings } from './rings.ts';
import { hintFor, proposedWords } from '../tool-words.ts';
import { Hint } from './hint.tsx';
import { benchHand } from './bench-hand.ts';
import { benchPictureOf } from './bench-picture.ts';
import type { BenchSources } from './shown-sources.ts';
import { Surface } from './surface.tsx';
import styles from './surface.module.css';
import { useLate } from '../../shell/use-late.ts';
import { frameInWords } from '../../shell/words.ts';

export interface BenchCanvasProps {
  readonly clip: BookClip;
  readonly index: ClipIndex;
  readonly sources: BenchSources;
}

const NO_STARTS: Starts = {};
const NO_TARGETS: readonly Target[] = [];

/** The frame on the bench: its marks, those of others that show here, and what the tool in hand wants next. */
export function BenchCanvas({ clip, index, sources }: BenchCanvasProps) {
  const at = useStore(app, (state) => state.bench?.index ?? 0);
  const picture = useStore(app, (state) => state.bench?.picture ?? 'coming');
  const draft = useStore(app, (state) => state.bench?.draft ?? null);
  const selected = useStore(app, (state) => state.bench?.selected ?? null);
  const tool = useStore(app, (state) => state.bench?.tool);
  const asked = useStore(app, pointAskedFor);
  const running = useStore(run, (state) => state.running);
  const look = useStore(app, (state) => (state.then === null ? 'plain' : 'now'));

  const late = useLate(picture === 'coming');
  const source = useMemo(() => benchPictureOf(clip.id), [clip.id]);

  // What is marked on the ground or on walls lies round the player.
  const inHand = tool?.tool ?? 'move';
  useEffect(() => {
    if (inHand === 'ground' || inHand === 'edge') showRound();
  }, [inHand]);

  const isPlacing = tool?.tool === 'points';
  const isFollowing = tool?.tool === 'path';
  const plan = useStore(groundPlan, (typed) => typed.plan);
  const follows = useStore(app, (state) => state.bench?.follows ?? 'clubhead');
  const shown = index.frames[at];
  const drawn = useMemo(() => (draft === null ? clip : withMarks(clip, draft)), [draft, clip]);
  const marks = useMemo(
    () => (shown === undefined ? null : marksShownOn(drawn, { index: at, pts: shown.pts })),
    [drawn, at, shown],
  );
  const unseen = useStore(unseenMarks, (all) => (shown === undefined ? null : unseenOn(all, clip.id, shown.pts)));
  const ahead = useMemo(() => (unseen === null ? NO_TARGETS : leftUnseen(clip, unseen)), [unseen, clip]);
  // A draft is of this frame; starts come from the frames before it.
  useStore(proposedPoints, (all) => all);
  const [proposed] = openProposals(
    clip,
    useStore(proposals, (each) => each),
    useStore(app, (state) => state.bench?.looksFor ?? null),
  );
  const isNextProposed = proposed?.frame === at;
  const waiting =
    marks === null || shown === undefined ? 0 : openOnNamed(clip, marksOn(clip, { index: at, pts: shown.pts })).length;
  const starts = isPlacing || isNextProposed || waiting > 0 ? startsFor(clip, at) : NO_STARTS;
  const chains = useStore(followed, (all) => all[clip.id]);
  const here = useMemo(
    () => (isFollowing && marks !== null ? pathRings(marks, follows) : []),
    [isFollowing, marks, follows],
  );
  const followedTo = useMemo(() => {
    if (!isFollowing || marks === null || chains === undefined) return [];
    return followedRings(marks, openPlaces(chains, pathScene(drawn, marks, follows).shape, follows).places);
  }, [isFollowing, marks, chains, drawn, follows]);
  const over = useMemo(() => {
    if (marks === null) return null;
    const labels = labelTextsOf(marks, drawn);
    const quiet = carriedIds(drawn, at);
    const own = drawListOf(marks, { look, width: clip.width, height: clip.height, labels, quiet });
    const rings = [...followedTo, ...here, ...ringsOf(marks, selected, sources), ...unseenRings(marks, ahead)];
    return {
      items: [...own, ...sources.lines],
      rings: [...startRings(marks, starts, asked), ...rings],
      steady: draft !== null,
      keepFree: bodyPlaces(marks, clip.height),
    };
  }, [
    marks,
    draft,
    selected,
    sources,
    drawn,
    clip.width,
    clip.height,
    look,
    at,
    asked,
    starts,
    here,
    followedTo,
    ahead,
  ]);

  const words = frameInWords(clip, index, at);
  const startAt = asked === null ? undefined : starts[asked];
  const start =
    startAt === undefined ? null : startAt.guess === undefined ? ('before' as const) : ('proposed' as const);
  const usual = useStore(app, (state) => nextOnBench(clip, at, state.bench?.looksFor ?? null));
  const next =
    waiting > 0
      ? say`${proposedWords(waiting)} Enter accepts the dashed points, a drag puts one right.`
      : proposed === undefined
        ? usual
        : marks !== null && isNextProposed && pointsWithName(clip, marks, proposed) > 0
          ? say`${proposalWords(proposed)} Enter names this frame and accepts the dashed points; arrow keys put it right.`
          : say`${proposalWords(proposed)} Enter names this frame; arrow keys put it right.`;
  const isProposed = followedTo.some(({ kind }) => kind === 'next');
  const nudge = nudgeKeysInWords();
  const hintScene = { selected, asked, start, follows, hasPlace: here.length > 0, isProposed, next, plan, nudge };
  return (
    <Surface
      {...{ clip, source, picture, late }}
      frames={index.frames}
      marks={over}
      hand={benchHand}
      label={picture === 'exact' ? say`Picture of ${words}, exact` : say`Picture of ${words}, coming`}
      tool={inHand}
      player={playerOfClip(clip)}
    >
      <div className={styles.state}>
        <span>{pictureWords(picture, running, at)}</span>
        <span role="status">{aheadWords(ahead.length, picture)}</span>
      </div>
      {tool === undefined ? null : <Hint>{hintFor(tool, hintScene)}</Hint>}
    </Surface>
  );
}
