import { open } from 'node:fs/promises';
import { answerOrders } from '../../files/standing-process.ts';
import type { CodedStart } from '../../time/first-picture.ts';
import { readCodedStart } from './coded-start.ts';

/**
 * Entry of a process of its own that reads containers: a file made to keep its reader busy, or to take all its memory,
 * costs no more than this process.
 */

answerOrders(async (order: { readonly path: string }): Promise<CodedStart | null> => {
  try {
    const file = await open(order.path);
    return await readCodedStart(order.path, file).finally(() => file.close());
  } catch {
    // What is wrong with a file is said by ffmpeg's reading of it.
    return null;
  }
});
