import { lowered, say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { TalkPane } from '../model/talk.ts';
import { VIEW_LABELS } from '../model/words.ts';
import { reportOf } from '../report/lesson-report.ts';
import { openFilmPainter } from '../sheet/film-painter.ts';
import { cardPictures, type FilmRun } from '../talk/film-plan.ts';
import type { ClipIndex } from '../time/clip-index.ts';
import { frameWithPts } from '../time/frame-table.ts';
import { drawnMarks } from '../talk/talk-state.ts';
import { openPictureSequence, type PictureSequence } from '../video/decode/picture-sequence.ts';
import { clipKey, type TalkWork } from './talk-orders.ts';

/** The pictures of a video, painted one after the other as they are taken. */
export interface FilmPictures {
  /** How many pictures the closing card is shown for. */
  readonly cardPictures: number;
  /** Each once, as RGBA rows that are good until the next is taken, with how often it is shown; the closing card at the end. */
  pictures(): AsyncGenerator<{ readonly rgba: Uint8Array; readonly times: number }>;
  /** How many were painted so far. */
  painted(): number;
  /** Ends what reads the clips. */
  close(): Promise<void>;
}

export function openFilmPictures(work: TalkWork, runs: readonly FilmRun[], signal: AbortSignal): FilmPictures {
  const { now, then, goals, placing, talk, cautions } = work;
  const report = reportOf({ now, then, goals, ...(placing === null ? {} : { placing }) });
  const sequences = openSequences(work, runs, signal);
  const painter = openFilmPainter({
    ...{ shape: work.shape, report, burnCaptions: work.burnCaptions, drawn: drawnMarks(talk) },
    read: sequences.read,
  });
  const card = painter
    .layoutCard({ ...talk.closing, firstName: now.studentFirstName, cautions })
    .map((page) => ({ page, times: cardPictures(page.words) }));
  let painted = 0;
  return {
    cardPictures: card.reduce((sum, { times }) => sum + times, 0),
    async *pictures() {
      for (const { state, pictures: times } of runs) {
        painted += 1;
        yield { rgba: await painter.paint(state), times };
      }
      for (const { page, times } of card) {
        painted += 1;
        yield { rgba: painter.card(page), times };
      }
    },
    painted: () => painted,
    close: sequences.close,
  };
}

/** The clips, each opened when its first picture is asked for, once a place on the stage. */
function openSequences({ clips, ffmpeg }: TalkWork, runs: readonly FilmRun[], signal: AbortSignal) {
  const open = new Map<string, Promise<PictureSequence>>();
  return {
    async read(pane: TalkPane, place: number): Promise<Uint8Array> {
      const key = `${place} ${clipKey(pane)}`;
      const clip = clips[clipKey(pane)];
      if (clip === undefined) throw new Error(`${clipKey(pane)} is shown and was not handed over`);
      const sequence =
        open.get(key) ??
        openPictureSequence(clip.path, clip.index, framesOf(runs, pane, place, clip.index), { ffmpeg, signal });
      open.set(key, sequence);
      return (await sequence).picture(frameOf(pane, clip.index));
    },
    async close(): Promise<void> {
      const all = await Promise.allSettled(open.values());
      await Promise.all(all.flatMap((each) => (each.status === 'fulfilled' ? [each.value.close()] : [])));
    },
  };
}

/** The frame by its time stamp, which stays right when frames are numbered anew. */
function frameOf({ view, frame }: TalkPane, index: ClipIndex): number {
  const found = frameWithPts(index, frame.pts);
  if (found !== null) return found;
  throw new AppError(
    'no-such-frame',
    say`The clip ${lowered(VIEW_LABELS[view])} has no frame ${frame.index} any more.`,
  );
}

/** The frames of a clip that are shown at one place, in order, each as often as it comes anew. */
function framesOf(runs: readonly FilmRun[], clip: TalkPane, place: number, index: ClipIndex): readonly number[] {
  const frames: number[] = [];
  for (const { state } of runs) {
    const pane = state.panes[place];
    if (pane === undefined || clipKey(pane) !== clipKey(clip)) continue;
    const frame = frameOf(pane, index);
    if (frames.at(-1) !== frame) frames.push(frame);
  }
  return frames;
}
