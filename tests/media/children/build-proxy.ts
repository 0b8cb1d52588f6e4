import { setTimeout as delay } from 'node:timers/promises';
import { AppError } from '../../../core/model/errors.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import { ProxyStore } from '../../../core/video/proxy/proxy-store.ts';

/**
 * Builds the copy of the clip `process.argv[4]`, named by the SHA-256 `process.argv[3]`, in the folder `process.argv[2]`,
 * waiting `process.argv[5]` milliseconds before each picture. Prints how many are there after each, then the result.
 */
const [, , folder = '', sha256 = '', path = '', pause = '0'] = process.argv;
const ffmpeg = await findFfmpeg();
const copies = new ProxyStore(folder, { keepFreeBytes: 0 });
const copy = await copies.open({ sha256, index: await readClipIndex(path, { ffmpeg }) });
const said = await copies
  .build(
    copy,
    { path, ffmpeg },
    {
      signal: new AbortController().signal,
      giveWay: () => delay(Number(pause)),
      onFrame: (written) => {
        process.stdout.write(`${written}\n`);
      },
    },
  )
  .catch((error: unknown) => (error instanceof AppError ? `${error.code}: ${error.message}` : String(error)));
console.log(JSON.stringify(said));
await copy.release();
