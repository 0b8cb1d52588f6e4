import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../../../core/model/errors.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { keepSpan } from '../../../core/video/span/keep-span.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';

/** Keeps all of the clip `process.argv[3]` on the disk at `process.argv[2]`; prints what was said and what lies there. */
const [, , disk = '', path = ''] = process.argv;
const ffmpeg = await findFfmpeg();
const index = await readClipIndex(path, { ffmpeg });
const order = { ffmpeg, path, index, from: 0, to: index.frames.length - 1, out: join(disk, 'kept.mp4') };
const said = await keepSpan(order).then(
  () => 'done',
  (error: unknown) => (error instanceof AppError ? `${error.code}: ${error.message}` : String(error)),
);
console.log(JSON.stringify({ said, left: readdirSync(disk) }));
