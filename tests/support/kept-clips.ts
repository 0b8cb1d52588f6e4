import { createHash, randomUUID } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, extname, join } from 'node:path';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';

const CACHE = join(import.meta.dirname, '..', '..', 'node_modules', '.cache', 'baybook-test-clips');
/** What the pictures of a clip are made by, beside what each clip is made of. */
const MAKERS = ['coded-picture.ts', 'coded-clip.ts'].map((name) => readFileSync(join(import.meta.dirname, name)));

/**
 * Puts a clip at `out`. It is made once for what it is made `of` (whatever becomes JSON) and copied from then on: many
 * tests begin with the same one, and an encoder takes ten times as long as a copy. `make` writes it to the name it gets.
 */
export function putClip(ffmpeg: Ffmpeg, of: unknown, out: string, make: (path: string) => void): void {
  const folder = join(CACHE, hashOf([ffmpeg.version, ...MAKERS]));
  // Whoever makes the folder clears away what was made by earlier sources.
  if (mkdirSync(folder, { recursive: true }) !== undefined) removeAllBut(basename(folder));
  const end = extname(out);
  const kept = join(folder, `${hashOf([JSON.stringify(of), end])}${end}`);
  if (!existsSync(kept)) {
    // Under its own name it is whole, however many make it at the same time.
    const making = join(folder, `making-${randomUUID()}${end}`);
    try {
      make(making);
      renameSync(making, kept);
    } finally {
      rmSync(making, { force: true });
    }
  }
  copyFileSync(kept, out);
}

function removeAllBut(name: string): void {
  for (const other of readdirSync(CACHE))
    if (other !== name) rmSync(join(CACHE, other), { recursive: true, force: true });
}

function hashOf(parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part).update('\0');
  return hash.digest('hex').slice(0, 24);
}
