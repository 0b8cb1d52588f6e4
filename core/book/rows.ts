import * as v from 'valibot';
import type { Clip, Lesson, Student, Swing } from '../model/book.ts';
import type { CaptureRate, Ratio } from '../model/frame.ts';
import {
  countFromOne,
  countFromZero,
  day,
  finiteNumber,
  handedness,
  identifier,
  name,
  note,
  sha256,
  typedNameOrEmpty,
  view,
} from '../parse/scalars.ts';

/** Rows of the book as they come out of SQLite, each with the record it stands for. */

/** SQLite has no booleans: 0 and 1. */
export const flag = v.pipe(
  v.picklist([0, 1]),
  v.transform((stored) => stored === 1),
);

export const studentRow = v.pipe(
  v.strictObject({ id: identifier, first_name: name, last_name: typedNameOrEmpty, handedness, child: flag }),
  v.transform(({ first_name, last_name, child, ...rest }): Student => ({
    ...{ ...rest, firstName: first_name, lastName: last_name },
    ...(child ? { child: true } : {}),
  })),
);
export const STUDENT_COLUMNS = 'id, first_name, last_name, handedness, child';

export const lessonRow = v.pipe(
  v.strictObject({ id: identifier, student_id: identifier, date: day, club: name, handedness, note, consent: flag }),
  v.transform(({ student_id, consent, ...rest }): Lesson => ({
    ...{ ...rest, studentId: student_id },
    ...(consent ? { consent: true } : {}),
  })),
);
export const LESSON_COLUMNS = 'id, student_id, date, club, handedness, note, consent';

export const swingRow = v.pipe(
  v.strictObject({ id: identifier, lesson_id: identifier, label: name }),
  v.transform(({ id, lesson_id, label }): Swing => ({ id, lessonId: lesson_id, label })),
);
export const SWING_COLUMNS = 'id, lesson_id, label';

const half = v.nullable(countFromOne);
function ratioOf(num: number | null, den: number | null): Ratio | null {
  return num === null || den === null ? null : { num, den };
}
function captureRateOf(rate: Ratio | null, confirmed: boolean | null): CaptureRate | null {
  return rate === null ? null : { framesPerSecond: rate, confirmed: confirmed === true };
}

export const clipRow = v.pipe(
  v.strictObject({
    id: identifier,
    swing_id: identifier,
    view,
    original_name: v.pipe(v.string(), v.nonEmpty()),
    sha256,
    bytes: countFromOne,
    stored: v.picklist(['copied', 'linked']),
    width: countFromOne,
    height: countFromOne,
    timebase_num: countFromOne,
    timebase_den: countFromOne,
    rate_num: half,
    rate_den: half,
    capture_num: half,
    capture_den: half,
    capture_confirmed: v.nullable(flag),
    frame_count: countFromOne,
    kept_first: v.nullable(countFromZero),
    kept_of: v.nullable(countFromOne),
    coming: flag,
  }),
  v.transform((row): Clip => ({
    ...{ id: row.id, swingId: row.swing_id, view: row.view, originalName: row.original_name },
    ...{ sha256: row.sha256, bytes: row.bytes, stored: row.stored, width: row.width, height: row.height },
    timebase: { num: row.timebase_num, den: row.timebase_den },
    nominalRate: ratioOf(row.rate_num, row.rate_den),
    captureRate: captureRateOf(ratioOf(row.capture_num, row.capture_den), row.capture_confirmed),
    frameCount: row.frame_count,
    kept: row.kept_first === null || row.kept_of === null ? null : { first: row.kept_first, of: row.kept_of },
    ...(row.coming ? { coming: true } : {}),
  })),
);
export const CLIP_COLUMNS =
  'id, swing_id, view, original_name, sha256, bytes, stored, width, height, timebase_num, timebase_den, ' +
  'rate_num, rate_den, capture_num, capture_den, capture_confirmed, frame_count, kept_first, kept_of, coming';

/** Where the bytes of a clip lie: `file` is a name in the media folder (copied) or an absolute path (linked). */
export const clipFileRow = v.pipe(
  v.strictObject({
    stored: v.picklist(['copied', 'linked']),
    file: v.pipe(v.string(), v.nonEmpty()),
    sha256,
    bytes: countFromOne,
    modified_ms: finiteNumber,
    original_name: v.string(),
    kept_of: v.nullable(countFromOne),
    coming: flag,
  }),
  v.transform(({ modified_ms, original_name, kept_of, ...rest }) => ({
    ...rest,
    /** Whether it is only a part of the file with the original name. */
    isPart: kept_of !== null,
    modifiedMs: modified_ms,
    originalName: original_name,
  })),
);
export type ClipFile = v.InferOutput<typeof clipFileRow>;
export const CLIP_FILE_COLUMNS = 'stored, file, sha256, bytes, modified_ms, original_name, kept_of, coming';
