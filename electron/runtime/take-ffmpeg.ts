import { AppError } from '../../core/model/errors.ts';
import { findFfmpeg, type Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import { FFMPEG_NEED, mayInstall, meetNeeds } from '../bare-machine/debian-packages.ts';

/**
 * Finds ffmpeg, and on Debian as root installs the system's one when there is none, or none but the packaged build of
 * 2018. Says which was taken. Throws AppError `ffmpeg-missing` or `runtime-missing` with one sentence.
 */
export async function takeFfmpeg(say: (line: string) => void): Promise<Ffmpeg> {
  let found = await findOrNull();
  if ((found === null || found.from === 'installer') && mayInstall()) {
    await meetNeeds([FFMPEG_NEED], say);
    found = null;
  }
  const taken = found ?? (await findFfmpeg());
  say(`Using ffmpeg ${taken.version} (${taken.path}).`);
  if (taken.warning !== null) say(taken.warning);
  return taken;
}

async function findOrNull(): Promise<Ffmpeg | null> {
  try {
    return await findFfmpeg();
  } catch (error) {
    if (error instanceof AppError && error.code === 'ffmpeg-missing' && !process.env['BAYBOOK_FFMPEG']) return null;
    throw error;
  }
}
