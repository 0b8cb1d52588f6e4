import { mkdtemp, rm, utimes } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hashFile } from '../../../core/files/hash-file.ts';
import { prepareContainerReader } from '../../../core/video/index/read-container.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import { LARGEST_SIDE } from '../../../core/video/proxy/proxy-size.ts';
import type { ProxySide } from '../../../core/video/proxy/proxy-size.ts';
import { ProxyStore } from '../../../core/video/proxy/proxy-store.ts';
import { between, processorTime } from './processor-time.ts';
import type { BenchClip } from '../bench-clip.ts';

/** Milliseconds that the index of a clip takes in the window, where nothing is known of the clip. */
export async function timeIndex({ path, ffmpeg }: Pick<BenchClip, 'path' | 'ffmpeg'>): Promise<number> {
  // A file that was changed is another file: what its head said is asked again.
  const now = new Date();
  await utimes(path, now, now);
  prepareContainerReader();
  const start = performance.now();
  await readClipIndex(path, { ffmpeg, byTables: true });
  return performance.now() - start;
}

export interface CopyCost {
  /** Milliseconds. */
  readonly lasted: number;
  /** Milliseconds of processor time, of ffmpeg and our own; null where the system does not tell. */
  readonly worked: number | null;
  readonly bytesPerFrame: number;
}

/** Makes a clip's proxy in an empty folder, and throws when it does not hold the frames that the clip shows. */
export async function timeCopy(
  { name, path, ffmpeg, index, truth }: BenchClip,
  longest: ProxySide = LARGEST_SIDE,
): Promise<CopyCost> {
  const folder = await mkdtemp(join(tmpdir(), 'baybook-bench-copy-'));
  try {
    const { sha256 } = await hashFile(path);
    const copies = new ProxyStore(folder);
    const [start, before] = [performance.now(), processorTime()];
    const copy = await copies.open({ sha256, index, longest });
    const { delivered } = await copies.build(copy, { path, ffmpeg }, { signal: new AbortController().signal });
    const lasted = performance.now() - start;
    const worked = between(before, processorTime());
    await copy.release();
    if (delivered.length !== truth.frames.length || truth.frames.some(({ pts }, place) => pts !== delivered[place]))
      throw new Error(`${name}: the proxy holds other frames than the clip shows`);
    return { lasted, worked, bytesPerFrame: (await copies.usedBytes()) / delivered.length };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
