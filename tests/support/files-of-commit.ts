import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { drawn } from './drawn.ts';

/**
 * Files beside the main job, of which each commit runs a quarter: journeys through one corner of the window, and clips that
 * are ill in one way. What the job needs, what could lose work and what keeps things private always runs. Neighbours run
 * at different commits, so that each quarter takes about as long.
 */
export const BESIDE: Readonly<Record<string, readonly string[]>> = {
  'tests/e2e': [
    ...[
      'printing',
      'swings-in-clip',
      'goals',
      'early-clicks',
      'languages',
      'repeat-check',
      'propose',
      'feel',
      'learnt-errors',
    ],
    ...['shapes', 'readings', 'run-and-both', 'recording-trouble', 'life', 'drag-out', 'job', 'undo', 'camera'],
    ...['swing-file', 'guided-run', 'wanted-here', 'roads-out', 'strip', 'bench', 'long-clip', 'no-file'],
    ...['damage', 'long-names'],
  ],
  'tests/media': [
    ...['swings-of-clip', 'proxy-outside', 'keep-span', 'proxy-resume', 'german', 'outside-clips', 'backward-times'],
    ...['sound-clock', 'find-damage', 'follow-thing', 'conformance', 'proxy-processes', 'verified-index'],
    ...['field-clips', 'decoded-size', 'proxy-folder', 'bad-input'],
    ...[
      'proxy-growth',
      'proxy-order',
      'encode-clip',
      'hardware-decoder',
      'sound-envelope',
      'coded-start',
      'left-out',
      'listed-pictures',
      'key-pictures',
      'first-minute',
    ],
  ],
};

export const GROUPS = [0, 1, 2, 3];
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
