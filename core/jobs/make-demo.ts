import { randomUUID } from 'node:crypto';
import { say } from '../model/say.ts';
import type { Book } from '../book/book.ts';
import { demoStory } from '../demo/demo-story.ts';
import { makeDemoClips, type DemoClip } from '../demo/make-clips.ts';
import { BODY_POINT_INFO, BODY_POINTS, type BodyPointId } from '../model/body-points.ts';
import { AppError } from '../model/errors.ts';
import type { LineShape, PlacedPoint, Shape } from '../model/mark.ts';
import { CHECKPOINTS, type Checkpoint } from '../model/words.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { importClip } from './import-clip.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';

export interface DemoOrder {
  /** Where the clips and their truth are made before the book takes its own copies; the caller keeps or deletes it. */
  readonly clipsFolder: string;
  readonly ffmpeg: Ffmpeg;
}

export interface MadeDemo {
  readonly studentId: string;
  readonly thenSwingId: string;
  readonly nowSwingId: string;
}

/**
 * Puts an invented student with two lessons into the book: clips of both views, frames named, body points, head and head box,
 * plumb and known length placed where the scene knows them to be (to 0.1 px, as fine as a careful hand).
 * On an error or a cancel nothing of it stays in the book.
 * @throws AppError `cancelled` and what making, encoding and importing clips may throw.
 */
export async function makeDemo(book: Book, { clipsFolder, ffmpeg }: DemoOrder, run: JobContext): Promise<MadeDemo> {
  const clips = await makeDemoClips({
    folder: clipsFolder,
    ffmpeg,
    signal: run.signal,
    onProgress: (done, total) => run.report(say`Painting the demo swings`, done, total),
  });
  const story = demoStory();
  const student = book.addStudent(story.student);
  try {
    const swings = { then: '', now: '' };
    for (const which of ['then', 'now'] as const) {
      const { date, club, note } = story.lessons[which];
      const { handedness } = story.student;
      const lesson = book.addLesson({ studentId: student.id, date, club, handedness, note });
      swings[which] = book.addSwing({ lessonId: lesson.id, label: say`Swing 1` }).id;
      for (const clip of clips.filter((one) => one.lesson === which)) {
        stopIfCancelled(run.signal);
        await addClip(book, swings[which], clip, ffmpeg, run);
      }
    }
    // Of today nothing is written yet: that is what there is to try.
    book.setPage(swings.then, story.pages.then);
    return { studentId: student.id, thenSwingId: swings.then, nowSwingId: swings.now };
  } catch (cause) {
    book.removeStudent(student.id);
    throw cause;
  }
}

async function addClip(book: Book, swingId: string, made: DemoClip, ffmpeg: Ffmpeg, run: JobContext): Promise<void> {
  const clip = await importClip(book, { swingId, view: made.view, path: made.path, stored: 'copied' }, ffmpeg, run);
  const { frames } = book.clipIndex(clip.id);
  if (clip.nominalRate !== null) book.setCaptureRate(clip.id, { framesPerSecond: clip.nominalRate, confirmed: true });
  for (const checkpoint of CHECKPOINTS) {
    const index = made.checkpoints[checkpoint];
    const shown = frames[index];
    if (shown === undefined)
      throw new AppError('internal', say`The demo clip has no frame ${index}. Make the demo again.`);
    const frame = { index, pts: shown.pts };
    book.setCheckpoint(clip.id, checkpoint, frame);
    book.saveMarks(clip.id, { frame, points: pointsOf(made, index), shapes: shapesOf(made, checkpoint) });
  }
}

/** The points that readings of this view use. */
function pointsOf(made: DemoClip, index: number): Partial<Record<BodyPointId, PlacedPoint>> {
  const truth = made.points(index);
  return Object.fromEntries(
    BODY_POINTS.filter((point) => BODY_POINT_INFO[point].views.includes(made.view)).map((point) => [
      point,
      { x: tenth(truth[point].x), y: tenth(truth[point].y), hidden: false },
    ]),
  );
}

function shapesOf(made: DemoClip, checkpoint: Checkpoint): Shape[] {
  if (checkpoint !== 'address') return [];
  const line = (role: 'plumb' | 'yardstick', ends: DemoClip['plumb'], lengthMm: number | null): LineShape[] =>
    ends === null ? [] : [{ kind: 'line', id: randomUUID(), a: tenths(ends[0]), b: tenths(ends[1]), role, lengthMm }];
  const { headBox: box, head } = made;
  return [
    ...(made.view === 'face-on'
      ? [
          {
            kind: 'box' as const,
            id: randomUUID(),
            role: 'head-box' as const,
            carried: true as const,
            ...{ x: tenth(box.x), y: tenth(box.y), width: tenth(box.width), height: tenth(box.height) },
          },
          {
            kind: 'box' as const,
            id: randomUUID(),
            role: 'head' as const,
            ...{ x: tenth(head.left), y: tenth(head.top) },
            ...{ width: tenth(head.right - head.left), height: tenth(head.bottom - head.top) },
          },
        ]
      : []),
    ...line('plumb', made.plumb, null),
    ...(made.knownLength === null ? [] : line('yardstick', made.knownLength.ends, made.knownLength.lengthMm)),
  ];
}

const tenth = (pixels: number): number => Math.round(pixels * 10) / 10;
const tenths = ({ x, y }: { x: number; y: number }): { x: number; y: number } => ({ x: tenth(x), y: tenth(y) });
