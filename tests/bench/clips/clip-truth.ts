import { existsSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { isAtLeast } from '../../../core/video/process/find-ffmpeg.ts';
import { BITS, ROWS_OF_CELLS, readStrip, stripPlace } from './code-strip.ts';
import type { Size } from './code-strip.ts';
import { finish } from './clip-store.ts';
import type { ClipStore } from './clip-store.ts';
import { runPlain } from '../plain/run-plain.ts';

/** A frame that a plain decode of the whole clip shows. Its index is its place in the list. */
export interface TrueFrame {
  readonly pts: number;
  readonly key: boolean;
  /** The number in its picture. */
  readonly code: number;
}

/** What a clip shows, found by decoding all of it and looking at every picture; nothing of the code under test is used. */
export interface ClipTruth {
  /** Seconds a tick. */
  readonly tick: number;
  readonly frames: readonly TrueFrame[];
}

/** Reads the truth of a clip, or finds it and keeps it beside the clip. */
export async function takeTruth(store: ClipStore, path: string, stored: Size): Promise<ClipTruth> {
  const kept = `${path}.truth.json`;
  if (existsSync(kept)) return parseTruth(JSON.parse(await readFile(kept, 'utf8')));
  store.say(`looking at every frame of ${path.split(/[\\/]/).at(-1) ?? path} ...`);
  const truth = await findTruth(store, path, stored);
  await finish(kept, (making) => writeFile(making, JSON.stringify(truth)));
  return truth;
}

async function findTruth({ ffmpeg }: ClipStore, path: string, stored: Size): Promise<ClipTruth> {
  const strip = stripPlace(stored);
  const cells = BITS * ROWS_OF_CELLS;
  const filter = [
    `crop=${strip.width}:${strip.height}:${strip.left}:${strip.top}`,
    `scale=${BITS}:${ROWS_OF_CELLS}:flags=area,format=gray,showinfo=checksum=0`,
  ];
  const unpaced = isAtLeast(ffmpeg.version, '5.1') ? ['-fps_mode', 'passthrough'] : ['-vsync', '0'];
  const args = ['-noautorotate', '-copyts', '-i', path, '-map', '0:v:0', '-vf', filter.join(',')];
  const { output, complaint } = await runPlain(ffmpeg, [...args, ...unpaced, '-f', 'rawvideo', '-'], { level: 'info' });
  const [ticks, second] = (/config in time_base: (\d+\/\d+)/.exec(complaint)?.[1] ?? '').split('/').map(Number);
  const lines = [...complaint.matchAll(/\bn: *(\d+) pts: *(-?\d+) .*?\biskey:(\d)/g)];
  if (ticks === undefined || second === undefined || lines.length * cells !== output.length || lines.length === 0)
    throw new Error(`${path}: ${lines.length} frames listed, ${output.length / cells} delivered`);
  const frames = lines.map(([, , pts, key], index): TrueFrame => {
    const code = readStrip(output.subarray(index * cells, (index + 1) * cells));
    if (code === null) throw new Error(`${path}: the code of frame ${index} is unreadable`);
    return { pts: Number(pts), key: key === '1', code };
  });
  return { tick: ticks / second, frames };
}

function parseTruth(value: unknown): ClipTruth {
  if (typeof value !== 'object' || value === null || !('tick' in value) || !('frames' in value)) throw broken();
  if (typeof value.tick !== 'number' || !Array.isArray(value.frames)) throw broken();
  return { tick: value.tick, frames: value.frames.map(parseFrame) };
}

function parseFrame(value: unknown): TrueFrame {
  if (typeof value !== 'object' || value === null) throw broken();
  if (!('pts' in value && 'key' in value && 'code' in value)) throw broken();
  const { pts, key, code } = value;
  if (typeof pts !== 'number' || typeof key !== 'boolean' || typeof code !== 'number') throw broken();
  return { pts, key, code };
}

function broken(): Error {
  return new Error('the kept truth of a clip is not readable; delete the folder of the bench clips.');
}
