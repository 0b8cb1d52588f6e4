import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { HdrCurve } from './picture-filter.ts';
import { cubeText } from './tone-cube.ts';

/** A table on disk. ffmpeg is run in its folder, so that no path needs to be written into a filter's text. */
export interface CubeFile {
  readonly folder: string;
  readonly name: string;
}

let folder: string | null = null;
const made = new Map<HdrCurve, CubeFile>();

/** The table for a curve, written once a run of the program and removed when it ends. */
export function toneCube(curve: HdrCurve): CubeFile {
  const known = made.get(curve);
  if (known !== undefined) return known;
  if (folder === null) {
    const fresh = mkdtempSync(join(tmpdir(), 'baybook-tones-'));
    process.on('exit', () => {
      rmSync(fresh, { recursive: true, force: true });
    });
    folder = fresh;
  }
  const file: CubeFile = { folder, name: `${curve}.cube` };
  writeFileSync(join(folder, file.name), cubeText(curve));
  made.set(curve, file);
  return file;
}
