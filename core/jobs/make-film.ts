import { mkdtemp, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { say } from '../model/say.ts';
import { writingTrouble } from '../files/file-trouble.ts';
import { FILM_RATE, FILM_SIZES, planFilm, type FilmPlan } from '../talk/film-plan.ts';
import { assembleSound, type SoundPart } from '../video/film/assemble-sound.ts';
import { encodePictures } from '../video/film/encode-pictures.ts';
import { readLoudness } from '../video/film/loudness.ts';
import { packFilm } from '../video/film/pack-film.ts';
import { openFilmPictures } from './film-pictures.ts';
import type { JobContext } from './job-context.ts';
import type { FilmFacts, TalkWork } from './talk-orders.ts';

const FIRST_CHAPTER = say`Start`;

/**
 * Makes the video of a talk-through. Runs in a thread of its own (render-talk.ts): it paints and carries gigabytes.
 * @throws AppError as render-talk.ts.
 */
export async function makeFilm(work: TalkWork, run: JobContext): Promise<FilmFacts> {
  const plan = planFilm(work.talk, FIRST_CHAPTER);
  const folder = await mkdtemp(join(dirname(work.out), '.talk-')).catch((cause: unknown) => {
    throw writingTrouble(cause, work.named);
  });
  try {
    return await makeIn(folder, plan, work, run);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** `folder`: for what is only needed meanwhile. */
async function makeIn(
  folder: string,
  plan: FilmPlan,
  work: TalkWork,
  { signal, report }: JobContext,
): Promise<FilmFacts> {
  const { ffmpeg, out, named, shape, burnCaptions } = work;
  const [pictures, sound] = [join(folder, 'pictures.mp4'), join(folder, 'sound.raw')];
  const film = openFilmPictures(work, plan.runs, signal);
  const total = plan.pictures + film.cardPictures;
  const tell = (done: number): void => report(say`Making the video`, done, total);
  try {
    tell(0);
    const silenceAfter = Math.round((total * 1000) / FILM_RATE) - plan.length;
    await assembleSound({ ffmpeg, parts: soundParts(work), silenceAfter, folder, out: sound, signal });
    const loudness = await readLoudness(ffmpeg, sound, signal);
    await encodePictures({
      ...{ ffmpeg, signal, out: pictures, rate: FILM_RATE, ...FILM_SIZES[shape] },
      pictures: film.pictures(),
      onProgress: (done) => {
        if (done % FILM_RATE === 0) tell(done);
      },
    });
    await packFilm({
      ...{ ffmpeg, pictures, sound, loudness, folder, out, named, signal },
      ...{ captions: plan.captions, captionsShown: !burnCaptions, chapters: plan.chapters },
      title: work.now.studentFirstName,
    });
    tell(total);
    return { pictures: total, painted: film.painted() };
  } finally {
    await film.close();
  }
}

function soundParts({ talk }: TalkWork): readonly SoundPart[] {
  return talk.pieces.map(({ take, from, to }) => {
    const sound = talk.takes[take]?.sound ?? null;
    return sound === null
      ? { file: null, from, to }
      : { file: sound.file, from: from + sound.start, to: to + sound.start };
  });
}
