import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { drawn } from './drawn.ts';

/**
 * Files beside the main job, of which each commit runs a sixth: journeys through one corner of the window, and clips that
 * are ill in one way. What the job needs, what could lose work and what keeps things private always runs. Neighbours run
 * at different commits. A column is a sixth: what takes long stands over what does not, so that each takes about as long.
 */
export const BESIDE: Readonly<Record<string, readonly string[]>> = {
  'tests/e2e': [
    ...['propose', 'printing', 'talk', 'goals', 'feel', 'readings'],
    ...['swing-file', 'compare', 'sheet', 'repeat-check', 'new-user', 'swings-in-clip'],
    ...['lesson-page', 'life', 'languages', 'run-and-both', 'bench', 'early-clicks'],
    ...['drag-out', 'camera', 'strip', 'learnt-errors', 'shapes', 'recording-trouble'],
    ...['guided-run', 'undo', 'wanted-here', 'long-clip', 'roads-out', 'job'],
    ...['no-file', 'damage', 'long-names'],
  ],
  'tests/media': [
    ...['render-talk', 'swings-of-clip', 'proxy-outside', 'keep-span', 'proxy-processes', 'conformance'],
    ...['proxy-resume', 'sound-clock', 'german', 'outside-clips', 'backward-times', 'follow-thing'],
    ...['find-damage', 'proxy-folder', 'verified-index', 'field-clips', 'decoded-size', 'bad-input'],
    ...['hardware-decoder', 'encode-clip', 'proxy-growth', 'proxy-order', 'sound-envelope', 'coded-start'],
    ...['key-pictures', 'left-out', 'listed-pictures', 'first-minute'],
  ],
};

export const GROUPS = [0, 1, 2, 3, 4, 5];
const PROJECT = join(import.meta.dirname, '..', '..');

/**
 * The test files of a folder that the commit at hand runs, as paths from the project's folder; all of them in the long run
 * and with `npm test -- --all`.
 */
export function filesOfCommit(
  folder: string,
  groups: readonly number[] = process.env['BAYBOOK_FILES'] === 'all' ? GROUPS : drawn(GROUPS),
): readonly string[] {
  const leftOut = (BESIDE[folder] ?? []).filter((_, place) => !groups.includes(place % GROUPS.length));
  const files = readdirSync(join(PROJECT, folder)).filter((name) => name.endsWith('.test.ts'));
  return files.filter((name) => !leftOut.includes(name.replace('.test.ts', ''))).map((name) => `${folder}/${name}`);
}
