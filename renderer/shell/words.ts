import { say } from '../../core/model/say.ts';
import type { Lesson, Student } from '../../core/model/book.ts';
import { dayInWords } from '../../core/model/day-in-words.ts';
import { LANGUAGE_TAG } from '../../core/model/language.ts';
import type { CaptureRate, Ratio } from '../../core/model/frame.ts';
import { formatInstant } from '../../core/measure/words/format.ts';
import type { ClipIndex, LeftOut } from '../../core/time/clip-index.ts';
import { damagedCount, isDamaged } from '../../core/time/damaged-spans.ts';
import { isolated } from '../../core/model/isolated.ts';
import type { ClockedClip } from '../../core/time/swing-clock.ts';

/** Words for people, made from records. Numbers of readings are not made here but in core/measure/words/format.ts. */

export function studentName(student: Student): string {
  return isolated([student.firstName, student.lastName].filter((part) => part !== '').join(' '));
}

export function lessonName(lesson: Lesson): string {
  return `${dayInWords(lesson.date)}, ${isolated(lesson.club)}`;
}

/** Frames a second without needless decimals, e.g. "240" or "29.97". */
export function rateInWords(rate: Ratio): string {
  return new Intl.NumberFormat(LANGUAGE_TAG, { maximumFractionDigits: 2 }).format(rate.num / rate.den);
}

/** The same as it is typed, its thousands together. */
export function typedRate(rate: Ratio): string {
  return new Intl.NumberFormat(LANGUAGE_TAG, { maximumFractionDigits: 2, useGrouping: false }).format(
    rate.num / rate.den,
  );
}

export function captureRateInWords(rate: CaptureRate | null): string {
  if (rate === null) return say`real rate unknown`;
  const frames = say`${rateInWords(rate.framesPerSecond)} fps`;
  return rate.confirmed ? frames : say`the file says ${frames}`;
}

/** The same where there is little room: what only the file says carries a question mark. */
export function shortRateInWords(rate: CaptureRate | null): string {
  if (rate === null) return say`Real rate?`;
  return `${say`${rateInWords(rate.framesPerSecond)} fps`}${rate.confirmed ? '' : '?'}`;
}

/** Size of a file, in the units that systems show (1 MB = 1,000,000 bytes), e.g. "212 MB". */
export function bytesInWords(bytes: number): string {
  const [unit, size] = bytes < 1e6 ? ['kB', 1e3] : bytes < 1e9 ? ['MB', 1e6] : ['GB', 1e9];
  const digits = bytes / size < 10 ? 1 : 0;
  return `${new Intl.NumberFormat(LANGUAGE_TAG, { maximumFractionDigits: digits }).format(bytes / size)} ${unit}`;
}

/** A count with its thousands set apart, e.g. "72,000". */
export function countInWords(count: number): string {
  return new Intl.NumberFormat(LANGUAGE_TAG).format(count);
}

/**
 * Time of a frame from its time stamp, by the clock of its clip: what the coach says of the capture rate counts, not what the
 * file says.
 */
export function timeInWords(clip: ClockedClip, index: ClipIndex, frame: number): string {
  const shown = index.frames[frame];
  return shown === undefined ? '' : formatInstant(shown.pts, clip);
}

/** e.g. "frame 118 of 264, 3.937 s on screen", with ", damaged" where its picture cannot be trusted. Frames are counted from 0, so
 * that the last is the last. */
export function frameInWords(clip: ClockedClip, index: ClipIndex, frame: number): string {
  const damaged = isDamaged(index, frame) ? say`, damaged` : '';
  return say`frame ${String(frame)} of ${String(index.frames.length - 1)}, ${timeInWords(clip, index, frame)}${damaged}`;
}

/** What must be said beside whatever comes from a damaged frame. */
export const DAMAGED_FRAME = say`Damaged frame: the file is broken here, so neither the picture nor these readings can be trusted.`;

/** What a file holds beside its frames, e.g. "60 pictures are left out: each has the time of another one."; else empty. */
export function leftOutInWords(leftOut: LeftOut | null): string {
  const { doubled = 0, hidden = 0, timeless = 0 } = leftOut ?? {};
  const parts = [
    oneOrMore(
      doubled,
      say`1 picture is left out: the file gives it the time of another one.`,
      say`${countInWords(doubled)} pictures are left out: the file gives each the time of another one.`,
    ),
    oneOrMore(
      timeless,
      say`1 picture is left out: the file gives it no time.`,
      say`${countInWords(timeless)} pictures are left out: the file gives each no time.`,
    ),
    oneOrMore(
      hidden,
      say`1 picture is hidden: the file says not to show it.`,
      say`${countInWords(hidden)} pictures are hidden: the file says not to show them.`,
    ),
  ];
  return parts.filter((part) => part !== '').join(' ');
}

const oneOrMore = (count: number, one: string, more: string): string => (count === 0 ? '' : count === 1 ? one : more);

/** What is out of the ordinary about a clip's pictures, e.g. "3 damaged frames. HDR (HLG), shown in standard range."; else empty. */
export function picturesInWords(index: ClipIndex): string {
  const damaged = damagedCount(index);
  const parts = [
    oneOrMore(damaged, say`1 damaged frame.`, say`${countInWords(damaged)} damaged frames.`),
    leftOutInWords(index.leftOut === null ? null : { ...index.leftOut, hidden: 0 }),
    index.dynamicRange === 'sdr' ? '' : say`HDR (${index.dynamicRange.toUpperCase()}), shown in standard range.`,
  ];
  return parts.filter((part) => part !== '').join(' ');
}
