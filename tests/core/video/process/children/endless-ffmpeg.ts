import { findFfmpeg } from '../../../../../core/video/process/find-ffmpeg.ts';
import { startFfmpeg } from '../../../../../core/video/process/run-ffmpeg.ts';

/** Runs an ffmpeg that never ends and writes nothing, says its number, and does nothing about signals. */
const ffmpeg = await findFfmpeg();
const run = startFfmpeg(ffmpeg, ['-v', 'quiet', '-re', '-f', 'lavfi', '-i', 'color=s=16x16', '-f', 'null', '-']);
// Only when it is at work is its number good for anything.
process.stdout.write(`${String(process.pid)}\n`);
await run.end;
