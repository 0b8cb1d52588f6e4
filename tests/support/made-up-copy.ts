import { join } from 'node:path';
import { expect } from 'vitest';
import { ProxyFile } from '../../core/video/proxy/proxy-file.ts';
import { seeded } from './seeded.ts';

/** Proxies of pictures that are made up from their times, without a clip and without ffmpeg. */

export const SHA = 'f'.repeat(64);
export const TITLE = 'a copy of this test';
export const dataFile = (folder: string): string => join(folder, `${SHA}.scrub`);
export const tableFile = (folder: string): string => join(folder, `${SHA}.frames`);

/** The picture at a time, of 1 to 4,000 bytes that follow from the time alone. */
export function picture(pts: number): Uint8Array {
  const random = seeded(pts);
  return Uint8Array.from({ length: 1 + Math.floor(random() * 4000) }, () => Math.floor(random() * 256));
}

export const times = (count: number): number[] => Array.from({ length: count }, (_, place) => place * 7 - 20);

export function add(file: ProxyFile, all: readonly number[]): void {
  for (const pts of all) file.add({ pts, data: picture(pts) });
}

export async function opened(folder: string, title = TITLE): Promise<ProxyFile> {
  const file = new ProxyFile(folder, SHA, [title]);
  await file.load();
  return file;
}

export async function store(folder: string, count: number, errors: boolean | null): Promise<void> {
  const file = await opened(folder);
  await file.beginWriting();
  add(file, times(count));
  await file.flush(false);
  if (errors !== null) await file.complete(errors);
  await file.endWriting();
  await file.close();
}

/** Times whose picture comes back, after a check that it is the right one. */
export async function readable(file: ProxyFile, all: readonly number[]): Promise<number[]> {
  const found: number[] = [];
  for (const pts of all) {
    const data = await file.read(pts);
    if (data === null) continue;
    expect(Buffer.compare(data, picture(pts)), `picture ${pts}`).toBe(0);
    found.push(pts);
  }
  return found;
}
