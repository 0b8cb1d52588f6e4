import { join } from 'node:path';
import { setTimeout as rest } from 'node:timers/promises';
import { hashFile } from '../../../core/files/hash-file.ts';
import { PROXY_SIDES } from '../../../core/video/proxy/proxy-size.ts';
import { ProxyStore } from '../../../core/video/proxy/proxy-store.ts';
import type { BenchClip } from '../bench-clip.ts';
import type { Session } from './session.ts';

/** How far the program's proxy of a clip is, as the disk tells it. */
export interface CopyProgress {
  /** Whether it has no picture of a frame, nor of one before it from which the program may have come to it without writing. */
  lacks(frame: number): Promise<boolean>;
  /** Waits until no frame is missing; throws when it takes longer than any machine should. */
  whole(): Promise<void>;
}

const LIMIT_MS = 5 * 60_000;
const LOOK_MS = 300;
/** The program may hold this many frames more than it has written. */
const UNWRITTEN = 64;
/** Where the program keeps them, below the folder of its settings. */
const FOLDER = 'scrub-copies';

export async function followCopy({ program }: Session, { name, path, index }: BenchClip): Promise<CopyProgress> {
  const { sha256 } = await hashFile(path);
  const look = async (frame = 0): Promise<{ lacks: boolean; complete: boolean }> => {
    const copy = await new ProxyStore(join(program.userData, FOLDER)).open({ sha256, index, longest: PROXY_SIDES[0] });
    const { complete } = copy;
    const near = index.frames.slice(Math.max(0, frame - UNWRITTEN), frame + 1);
    const lacks = near.every(({ pts }) => !copy.has(pts));
    await copy.release();
    return { lacks, complete };
  };
  return {
    lacks: async (frame) => (await look(frame)).lacks,
    async whole() {
      for (const end = performance.now() + LIMIT_MS; performance.now() < end; await rest(LOOK_MS))
        if ((await look()).complete) return;
      throw new Error(`${name}: the proxy was not whole after five minutes`);
    },
  };
}
