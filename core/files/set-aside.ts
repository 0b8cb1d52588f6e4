import { link, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { isAbsent, isTaken } from './file-trouble.ts';

/** Files kept aside under one name, at most. */
const MOST_ASIDE = 20;
/** Bytes. Larger ones are not compared with those that lie aside already. */
const MOST_COMPARED = 1024 * 1024;

/**
 * Moves a file that cannot be used to a free name beside it: `NAME.unreadable`, then `-2`, `-3` behind it. One that lies
 * aside already is never written over; where one holds the very same, it stands for this one as well. Returns where it is
 * now; null where it could not be moved, also because twenty lie there, and was left where it is.
 */
export async function setAside(path: string): Promise<string | null> {
  try {
    const { size } = await stat(path);
    const content = size <= MOST_COMPARED ? await readFile(path) : null;
    for (let number = 1; number <= MOST_ASIDE; number += 1) {
      const aside = `${path}.unreadable${number === 1 ? '' : `-${number}`}`;
      if (content !== null && (await holds(aside, content))) {
        await rm(path);
        return aside;
      }
      if (await moveToFreeName(path, aside)) return aside;
    }
    return null;
  } catch {
    return null;
  }
}

async function holds(path: string, content: Uint8Array): Promise<boolean> {
  try {
    const { size } = await stat(path);
    return size === content.length && (await readFile(path)).equals(content);
  } catch (error) {
    if (isAbsent(error)) return false;
    throw error;
  }
}

/** A rename replaces silently, a hard link does not; where links are unknown (exFAT) the name is taken first. */
async function moveToFreeName(from: string, to: string): Promise<boolean> {
  try {
    await link(from, to);
    await rm(from);
    return true;
  } catch (error) {
    if (isTaken(error)) return false;
  }
  try {
    await (await open(to, 'wx')).close();
  } catch (error) {
    if (isTaken(error)) return false;
    throw error;
  }
  await rename(from, to);
  return true;
}
