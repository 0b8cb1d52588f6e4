import { open } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { answerOrders } from '../../files/standing-process.ts';
import { readCodedStart } from './coded-start.ts';
import { readFewPictures } from './few-pictures.ts';
import { readListedPictures } from './listed-pictures.ts';
import type { ContainerAnswer, ContainerOrder } from './read-container.ts';

/**
 * Entry of a process of its own that reads containers: a file made to keep its reader busy, or to take all its memory,
 * costs no more than this process.
 */

answerOrders(async (order: ContainerOrder): Promise<ContainerAnswer> => {
  try {
    const file = await open(order.path);
    try {
      return await read(order, file);
    } finally {
      await file.close();
    }
  } catch {
    // What is wrong with a file is said by ffmpeg's reading of it.
    return null;
  }
});

function read(order: ContainerOrder, file: FileHandle): Promise<ContainerAnswer> {
  if (order.wants === 'start') return readCodedStart(file);
  return order.wants === 'few' ? readFewPictures(file, order.times) : readListedPictures(file);
}
