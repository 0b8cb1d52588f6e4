import { open } from 'node:fs/promises';
import { answerOrders } from '../../files/standing-process.ts';
import type { CodedStart } from '../../time/first-picture.ts';
import { readCodedStart } from './coded-start.ts';
import { readListedPictures } from './listed-pictures.ts';
import type { ListedPictures } from './listed-pictures.ts';
import type { ContainerOrder } from './read-container.ts';

/**
 * Entry of a process of its own that reads containers: a file made to keep its reader busy, or to take all its memory,
 * costs no more than this process.
 */

answerOrders(async ({ path, wants }: ContainerOrder): Promise<CodedStart | ListedPictures | null> => {
  try {
    const file = await open(path);
    const reading = wants === 'start' ? readCodedStart(path, file) : readListedPictures(file);
    try {
      return await reading;
    } finally {
      await file.close();
    }
  } catch {
    // What is wrong with a file is said by ffmpeg's reading of it.
    return null;
  }
});
