import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { say } from '../../model/say.ts';
import { AppError } from '../../model/errors.ts';
import { runFileJob, type FileJob } from '../process/file-job.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { loudnessFilter, rawSoundOptions, type Loudness } from './loudness.ts';

/** Text with when it begins and ends, whole milliseconds, from < to. */
interface TimedText {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

export interface FilmToPack {
  readonly ffmpeg: Ffmpeg;
  /** An MP4 file without sound (`encodePictures`). */
  readonly pictures: string;
  /** Bare samples (`assembleSound`), and how loud they are. */
  readonly sound: string;
  readonly loudness: Loudness | null;
  readonly captions: readonly TimedText[];
  /** Whether players show the captions unasked: not where they stand in the picture already. */
  readonly captionsShown: boolean;
  readonly chapters: readonly TimedText[];
  readonly title: string;
  /** For what is only needed meanwhile. */
  readonly folder: string;
  /** The MP4 file to make; overwritten. */
  readonly out: string;
  /** What the coach knows it as. */
  readonly named: string;
  readonly signal?: AbortSignal | undefined;
}

/**
 * Puts pictures, sound, captions and chapters into one MP4 that plays before it is loaded whole: the pictures as they are,
 * the sound as AAC at the usual loudness, the captions as a track that can be switched.
 * @throws AppError `cancelled`, `disk-full`, `not-writable`, `ffmpeg-failed`.
 */
export async function packFilm(film: FilmToPack): Promise<void> {
  const { ffmpeg, pictures, sound, captions, chapters, folder, out, named, signal } = film;
  const facts = join(folder, 'chapters.txt');
  await writeFile(facts, chaptersText(chapters, film.title));
  const besides: { path: string; options: readonly string[] }[] = [
    { path: sound, options: rawSoundOptions },
    { path: facts, options: ['-f', 'ffmetadata'] },
  ];
  if (captions.length > 0) {
    const subtitles = join(folder, 'captions.srt');
    await writeFile(subtitles, captionsText(captions));
    besides.push({ path: subtitles, options: ['-f', 'srt', '-sub_charenc', 'UTF-8'] });
  }
  const job: FileJob = {
    ...{ ffmpeg, output: out, named, signal, besides },
    input: pictures,
    inputOptions: ['-f', 'mp4'],
    outputOptions: packArguments(film),
  };
  const failure = await runFileJob(job);
  if (failure !== null)
    throw new AppError('ffmpeg-failed', say`The video could not be put together. Try again.`, {
      cause: failure.cause,
      detail: { stderrTail: failure.stderrTail },
    });
}

function packArguments({ captions, captionsShown, chapters, loudness }: FilmToPack): string[] {
  const args = ['-map', '0:v:0', '-map', '1:a:0', '-map_metadata', '2'];
  args.push('-map_chapters', chapters.length > 0 ? '2' : '-1', '-c:v', 'copy');
  const filter = loudnessFilter(loudness);
  if (filter !== null) args.push('-af', filter);
  args.push('-c:a', 'aac', '-b:a', '96k', '-metadata:s:a:0', 'language=eng');
  if (captions.length > 0)
    args.push(
      ...['-map', '3:s:0', '-c:s', 'mov_text', '-metadata:s:s:0', 'language=eng'],
      ...['-disposition:s:0', captionsShown ? 'default' : '0'],
    );
  return [...args, '-movflags', '+faststart', '-f', 'mp4'];
}

/** ffmpeg's own format of chapters; the words of a title are escaped by its rules. */
export function chaptersText(chapters: readonly TimedText[], title: string): string {
  const escaped = (text: string): string => text.replaceAll(/[=;#\\\n]/g, (character) => `\\${character}`);
  const lines = [';FFMETADATA1', `title=${escaped(title)}`];
  for (const { from, to, text } of chapters)
    lines.push('[CHAPTER]', 'TIMEBASE=1/1000', `START=${from}`, `END=${to}`, `title=${escaped(text)}`);
  return `${lines.join('\n')}\n`;
}

/** SubRip. What would be read as a mark-up there is written with the letters that look like it. */
export function captionsText(captions: readonly TimedText[]): string {
  return captions
    .map(({ from, to, text }, index) => {
      const plain = text.replaceAll('<', '‹').replaceAll('>', '›').replaceAll('{', '(').replaceAll('}', ')');
      return `${index + 1}\n${clock(from)} --> ${clock(to)}\n${plain}\n`;
    })
    .join('\n');
}

/** "00:01:02,345". */
function clock(milliseconds: number): string {
  const two = (count: number): string => String(count).padStart(2, '0');
  const seconds = Math.floor(milliseconds / 1000);
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return `${two(hours)}:${two(minutes)}:${two(seconds % 60)},${String(milliseconds % 1000).padStart(3, '0')}`;
}
