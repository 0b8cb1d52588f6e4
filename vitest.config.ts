import { delimiter, join } from 'node:path';
import { defineConfig } from 'vitest/config';
import { BaseSequencer } from 'vitest/node';
import type { TestSpecification } from 'vitest/node';
import { leanFfmpegFolder } from './tests/support/lean-ffmpeg.ts';

/** Files that take longer than their size tells: begun first, so that none of them runs alone at the end. */
const LONG = new RegExp(
  `/(${[
    ...['coverage[\\w-]*', 'kill', 'edits'],
    ...['demo-book', 'ill-clips', 'keep-span', 'command-line', 'proxy-outside', 'frame-window', 'conformance'],
    ...['nothing-leaves', 'demo-lesson', 'new-user', 'repeat-check', 'closing', 'feel', 'walk', 'talk', 'printing'],
    ...['swings-in-clip', 'goals', 'early-clicks', 'recording-trouble', 'frames', 'render-talk', 'swings-of-clip'],
  ].join('|')})\\.test\\.ts$`,
);

/** What comes within a second on a quiet machine may take several on one that is busy. */
const PATIENT = { expect: { poll: { timeout: 10_000 } } };

/** Node reads TypeScript itself. By way of Vite each call of another module's function is looked up anew: a fifth more work in a tight loop. */
const AS_NODE_READS_IT = { experimental: { viteModuleRunner: false } };

/** What is tried many times as often may take many times as long. */
const times = process.env['BAYBOOK_TESTS'] === 'long' ? 10 : 1;

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLong = ({ moduleId }: TestSpecification): boolean => LONG.test(moduleId);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

/**
 * Four projects, so that a slow kind of test can be run alone:
 * unit (pure and quick), outside (published values), media (real clips and real ffmpeg), window (a real Electron window).
 * Files of the first three share a process, one after the other: to load all modules anew for each took longer than most tests.
 */
export default defineConfig({
  test: {
    // By itself it takes one of two cores; most of the tests wait for small processes of their own.
    maxWorkers: 2,
    env: {
      // What a clip holds is found anew in each test.
      BAYBOOK_CACHE: 'off',
      // An ffmpeg that starts quicker, where one was made.
      PATH: [leanFfmpegFolder() ?? [], process.env['PATH'] ?? []].flat().join(delimiter),
      // What Node makes of a program's text is not: it is most of the start of a command or a child that a test runs.
      NODE_COMPILE_CACHE: join(import.meta.dirname, 'node_modules', '.cache', 'node-code'),
    },
    sequence: { sequencer: LongFirst },
    projects: [
      {
        test: {
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/outside/**', 'tests/media/**', 'tests/e2e/**'],
          testTimeout: 20_000 * times,
          isolate: false,
          ...PATIENT,
        },
      },
      {
        test: {
          name: 'outside',
          include: ['tests/outside/**/*.test.ts'],
          testTimeout: 60_000 * times,
          isolate: false,
          ...AS_NODE_READS_IT,
        },
      },
      {
        test: {
          name: 'media',
          include: ['tests/media/**/*.test.ts'],
          testTimeout: 120_000 * times,
          hookTimeout: 180_000,
          isolate: false,
          ...PATIENT,
          ...AS_NODE_READS_IT,
        },
      },
      {
        test: {
          name: 'window',
          include: ['tests/e2e/**/*.test.ts'],
          testTimeout: 180_000 * times,
          hookTimeout: 300_000,
          isolate: false,
          ...PATIENT,
          ...AS_NODE_READS_IT,
        },
      },
    ],
  },
});
