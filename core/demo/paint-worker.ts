import { parentPort, workerData } from 'node:worker_threads';
import { framePainter } from './frame-painter.ts';
import type { Painted, PaintWork } from './paint-thread.ts';

/** Entry of the thread that paints a clip frame by frame; started by paint-thread.ts alone, and ended by it. */

const { scenario, view, clothes } = workerData as PaintWork;
const paint = framePainter(scenario, view, clothes);
let last: Uint8Array<ArrayBuffer> | null = null;

parentPort?.on('message', (frame: number) => {
  const painted = paintedAt(frame);
  parentPort?.postMessage(painted, 'picture' in painted && painted.picture !== null ? [painted.picture.buffer] : []);
});

function paintedAt(frame: number): Painted {
  try {
    // Its memory has gone with it by then; that it is the same one can still be told.
    const picture = paint(frame);
    const isSame = picture === last;
    last = picture;
    return { picture: isSame ? null : picture };
  } catch (cause) {
    return { fault: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
}
