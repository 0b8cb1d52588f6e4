import { say } from '../model/say.ts';
import { composeMail, type MailDraft, type MailFile } from '../lesson-page/compose-mail.ts';
import type { PagePicture } from '../lesson-page/page-picture.ts';
import { writePdf, type Paper } from '../lesson-page/write-pdf.ts';
import type { PlacingErrors } from '../measure/uncertainty/placing.ts';
import type { Goals } from '../model/goals.ts';
import type { LessonPage, LetterTemplate } from '../model/lesson-page.ts';
import { VIEWS, type Checkpoint, type View } from '../model/words.ts';
import { checkpointsToShow, sharedViews, usualCheckpoints } from '../report/checkpoints.ts';
import { reportOf } from '../report/lesson-report.ts';
import { placesOf, sentLesson, type SentLesson } from '../report/sent-lesson.ts';
import { STILL_WIDTH } from '../report/still-file.ts';
import { shrinkJpeg } from '../sheet/shrink-jpeg.ts';
import type { Ffmpeg } from '../video/process/find-ffmpeg.ts';
import { stopIfCancelled, type JobContext } from './job-context.ts';
import { makeStills } from './save-stills.ts';
import type { SwingSource } from './swing-source.ts';

/** All that a lesson sends is made from. */
export interface LessonOrder {
  readonly now: SwingSource;
  readonly then: SwingSource | null;
  readonly page: LessonPage;
  /** What the lesson before asked for, and its swing where that has one; null: there was none. */
  readonly earlier: { readonly date: string; readonly page: LessonPage; readonly swing: SwingSource | null } | null;
  readonly goals: Goals;
  readonly placing?: PlacingErrors;
}

export interface LessonContent {
  readonly lesson: SentLesson;
  readonly pictures: readonly PagePicture[];
}

/** More on one page or in one mail are not looked at. */
const MOST_PICTURES = 8;
/** All pictures of a PDF together, bytes: with fonts and text it stays under 5 MB. */
const PDF_PICTURE_BYTES = 2_800_000;

/** What the lesson says: no picture is read for it. */
export function lessonWords({ now, then, page, earlier, goals, placing }: LessonOrder): SentLesson {
  const readBy = { goals, ...(placing === undefined ? {} : { placing }) };
  const report = reportOf({ now: now.swing, then: then?.swing ?? null, ...readBy });
  const asked =
    earlier === null
      ? null
      : {
          ...{ date: earlier.date, page: earlier.page },
          report: earlier.swing === null ? null : reportOf({ now: now.swing, then: earlier.swing.swing, ...readBy }),
        };
  return sentLesson(report, page, asked);
}

/**
 * Words and stills of a lesson: a still of each frame that a finding is read on, in the order of the findings; without
 * findings, of the usual checkpoints.
 * @throws AppError `cancelled`, and what reading a clip may throw.
 */
export async function makeLesson(order: LessonOrder, ffmpeg: Ffmpeg, run: JobContext): Promise<LessonContent> {
  const lesson = lessonWords(order);
  const places = stillPlaces(order);
  const made = new Map<string, PagePicture>();
  for (const view of VIEWS) {
    const checkpoints = places.filter((place) => place.view === view).map(({ checkpoint }) => checkpoint);
    if (checkpoints.length === 0) continue;
    const { now, then, goals, placing } = order;
    const stills = await makeStills(
      {
        ...{ now, then, goals, checkpoints, views: [view], layout: 'phone', format: 'jpeg', width: STILL_WIDTH.usual },
        ...(placing === undefined ? {} : { placing }),
      },
      ffmpeg,
      run,
    );
    for (const [index, { name, text, bytes, width, height }] of stills.entries()) {
      const checkpoint = checkpoints[index];
      if (checkpoint === undefined) continue;
      const alt = text.trim().replaceAll(/\s*\n\s*/g, ' ');
      made.set(keyOf({ view, checkpoint }), { view, checkpoint, bytes, width, height, alt, name });
    }
  }
  return { lesson, pictures: places.flatMap((place) => made.get(keyOf(place)) ?? []) };
}

/** The page as PDF. */
export async function makePdf(content: LessonContent, paper: Paper, made: Date, run: JobContext): Promise<Uint8Array> {
  const share = Math.floor(PDF_PICTURE_BYTES / Math.max(1, content.pictures.length));
  const pictures: PagePicture[] = [];
  for (const picture of content.pictures) {
    stopIfCancelled(run.signal);
    pictures.push(await shrunk(picture, share));
  }
  return writePdf({ lesson: content.lesson, pictures, paper, made });
}

export interface MailWishes {
  readonly template: LetterTemplate;
  readonly paper: Paper;
  readonly talk: MailFile | 'too large' | null;
  /** Bytes before base64; left out = DEFAULT_MAIL_BYTES. */
  readonly mostBytes?: number;
  readonly made: Date;
}

/** The lesson as a mail draft, its page as PDF within. */
export async function makeMail(content: LessonContent, wishes: MailWishes, run: JobContext): Promise<MailDraft> {
  run.report(say`Making the page`, 0, null);
  const bytes = await makePdf(content, wishes.paper, wishes.made, run);
  stopIfCancelled(run.signal);
  run.report(say`Making the mail`, 0, null);
  const { template, talk, made, mostBytes } = wishes;
  const { lesson, pictures } = content;
  return composeMail({
    ...{ lesson, template, pictures, talk, made, shrink: shrunk },
    pdf: { name: `${lessonFileName(lesson)}.pdf`, type: 'application/pdf', bytes },
    ...(mostBytes === undefined ? {} : { mostBytes }),
  });
}

/** "Robin 12 May 2026 7 iron", without what a file name may not hold. */
export function lessonFileName({ firstName, date, club }: SentLesson): string {
  const plain = `${firstName} ${date} ${club}`.replaceAll(/[^\p{L}\p{N} .,'-]/gu, '').replaceAll(/\s+/g, ' ');
  return plain.trim().replace(/^\.+|\.+$/g, '') || 'lesson';
}

interface Place {
  readonly view: View;
  readonly checkpoint: Checkpoint;
}

function stillPlaces({ now, then, page }: LessonOrder): readonly Place[] {
  const swings = (then === null ? [now] : [now, then]).map(({ swing }) => swing);
  const isShown = ({ view, checkpoint }: Place) => checkpointsToShow(swings, view, [checkpoint]).length > 0;
  const found = placesOf(page.findings).filter(isShown);
  if (found.length > 0) return found.slice(0, MOST_PICTURES);
  const views = sharedViews(swings);
  return views
    .flatMap((view) => usualCheckpoints(swings, views).map((checkpoint) => ({ view, checkpoint })))
    .filter(isShown)
    .slice(0, MOST_PICTURES);
}

const keyOf = ({ view, checkpoint }: Place): string => `${view} ${checkpoint}`;

async function shrunk(picture: PagePicture, mostBytes: number): Promise<PagePicture> {
  return { ...picture, ...(await shrinkJpeg(picture, mostBytes)) };
}
