import { existsSync } from 'node:fs';
import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Ffmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { stripBytes } from './code-strip.ts';
import { runPlain } from '../plain/run-plain.ts';
import { cutArguments, paintArguments, repeatArguments, repeatedList, stillSize } from './recipes.ts';
import type { FilmName, Films } from './recipes.ts';
import { stillPicture } from './still-picture.ts';

/** Counted up when a recipe changes, so that nobody measures on the clips of yesterday. */
const VERSION = '1';

/** Where finished clips are kept. Each is made when it is asked for the first time. */
export interface ClipStore {
  readonly folder: string;
  readonly films: Films;
  readonly ffmpeg: Ffmpeg;
  readonly say: (line: string) => void;
}

export function openClipStore(projectFolder: string, parts: Omit<ClipStore, 'folder'>): ClipStore {
  const version = `${VERSION}-${parts.ffmpeg.version.replaceAll(/[^\w.+-]/g, '_')}${parts.films.mark}`;
  return { ...parts, folder: join(projectFolder, 'node_modules', '.cache', 'baybook-bench', version) };
}

/** The clip's file, made if it is not there. A file under its own name is always whole: it is renamed when done. */
export async function takeClip(store: ClipStore, name: FilmName): Promise<string> {
  const path = join(store.folder, `${name}.mp4`);
  if (existsSync(path)) return path;
  await mkdir(store.folder, { recursive: true });
  const { film, turn } = store.films.recipes[name];
  const source = film.kind === 'painted' ? '' : await takeClip(store, film.from);
  store.say(`making the clip ${name} ...`);
  const start = performance.now();
  await finish(path, async (making) => {
    if (film.kind === 'cut') await runPlain(store.ffmpeg, cutArguments(film, source, making));
    else if (film.kind === 'repeated') {
      const list = `${making}.list`;
      await writeFile(list, repeatedList(film, source));
      try {
        await runPlain(store.ffmpeg, repeatArguments(list, making));
      } finally {
        await rm(list, { force: true });
      }
    } else {
      const still = `${making}.still`;
      await writeFile(still, stillPicture(stillSize(film.size)));
      try {
        await runPlain(store.ffmpeg, paintArguments(film, still, making), { input: strips(film.frames) });
      } finally {
        await rm(still, { force: true });
      }
    }
    if (turn === 90) await writeTurn(making);
  });
  store.say(`made the clip ${name} in ${((performance.now() - start) / 1000).toFixed(0)} s`);
  return path;
}

/** Makes a file under another name and renames it once it is whole. */
export async function finish(path: string, make: (making: string) => Promise<void>): Promise<void> {
  const making = `${path}.making-${process.pid}`;
  try {
    await make(making);
    await rename(making, path);
  } finally {
    await rm(making, { force: true });
  }
}

function* strips(frames: number): Generator<Uint8Array> {
  for (let number = 0; number < frames; number += 1) yield stripBytes(number);
}

/**
 * Writes a quarter turn clockwise into the matrix of the first track: 40 bytes into the content of tkhd, 16.16 fixed point
 * (ISO/IEC 14496-12, 8.3.2). ffmpeg's own option for it differs between releases.
 */
async function writeTurn(path: string): Promise<void> {
  const bytes = await readFile(path);
  const at = bytes.indexOf('tkhd') + 4 + 40;
  for (const [place, value] of [0, 1, 0, -1, 0, 0].entries()) bytes.writeInt32BE(value * 65536, at + place * 4);
  await writeFile(path, bytes);
}
