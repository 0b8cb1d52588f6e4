import { readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { AppError } from '../../../core/model/errors.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { readClipIndex } from '../../../core/video/index/read-clip-index.ts';
import { ProxyStore } from '../../../core/video/proxy/proxy-store.ts';

/**
 * Builds the copy of the clip `process.argv[3]` on the disk of 2 MB at `process.argv[2]`, on which less and less is taken
 * up by something else, and prints one JSON value that tells what happened.
 */
const [, , disk = '', path = ''] = process.argv;
const ffmpeg = await findFfmpeg();
const index = await readClipIndex(path, { ffmpeg });
const folder = join(disk, 'copies');
const subject = { sha256: 'd'.repeat(64), index };
const times = index.frames.map(({ pts }) => pts);

async function build(keepFreeBytes: number): Promise<{ said: string; count: number; lost: number }> {
  const copies = new ProxyStore(folder, { keepFreeBytes });
  const copy = await copies.open(subject);
  const said = await copies.build(copy, { path, ffmpeg }, { signal: new AbortController().signal }).then(
    () => 'done',
    (error: unknown) =>
      error instanceof AppError
        ? `${error.code} (${String(error.detail['cause'] ?? 'met')}): ${error.message}`
        : String(error),
  );
  let readable = 0;
  for (const pts of times) if ((await copy.read(pts)) !== null) readable += 1;
  const { count } = copy;
  await copy.release();
  return { said, count, lost: count - readable };
}

const kept = await build(2e9);
const steps = [];
for (const bytes of [1_900_000, 1_500_000, 1_000_000, 0]) {
  rmSync(join(disk, 'filler'), { force: true });
  writeFileSync(join(disk, 'filler'), Buffer.alloc(bytes));
  // Below zero, so that the disk itself says that it is full.
  steps.push(await build(-1e9));
}
const counts = steps.map(({ count }) => count);
const rising = counts.every((count, step) => step === 0 || count > (counts[step - 1] ?? count));
const told = steps.map(({ said, lost }) => ({ said, lost }));

console.log(JSON.stringify({ kept, steps: told, rising, last: counts.at(-1), left: readdirSync(folder).sort() }));
