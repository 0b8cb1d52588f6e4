import { buildProgram } from '../../electron/runtime/build-program.ts';
import { meetNeeds, SCREENLESS_TEST_NEEDS } from '../../electron/bare-machine/debian-packages.ts';
import { takeElectron } from '../../electron/runtime/take-electron.ts';
import { takeFfmpeg } from '../../electron/runtime/take-ffmpeg.ts';
import { filesOfCommit } from './files-of-commit.ts';
import { makeLeanFfmpeg } from './lean-ffmpeg.ts';

/**
 * A command of a part. `vitest` names the project (and files) to run; `script` a program among the packages. `again`: files
 * that fail are run once more, alone, since they wait for pictures and processes that a busy machine may hold up.
 */
export type Step =
  | { readonly name: string; readonly vitest: readonly string[]; readonly again?: boolean }
  | { readonly name: string; readonly script: string; readonly args: readonly string[] };

/** One part of the whole test, run on its own by `npm test -- <name>`. */
export interface Part {
  readonly name: string;
  readonly steps: readonly Step[];
  /** Gets what the part needs of the machine; throws AppError with a sentence when it cannot be had. */
  readonly prepare: (projectFolder: string, say: (line: string) => void) => Promise<void>;
}

/** In the order they run: the quick ones first, so that a plain mistake shows within a minute. */
export const PARTS: readonly Part[] = [
  {
    name: 'check',
    steps: [
      { name: 'types', script: 'typescript-7/bin/tsc', args: ['--build'] },
      { name: 'lint', script: 'oxlint/bin/oxlint', args: [] },
      { name: 'format', script: 'oxfmt/bin/oxfmt', args: ['--check', '.'] },
      { name: 'unused', script: 'knip/bin/knip.js', args: ['--no-progress'] },
      { name: 'layers', vitest: ['--project', 'unit', 'tests/layers.test.ts'] },
    ],
    prepare: async () => undefined,
  },
  // Part of the time these wait for processes of their own.
  vitestPart('unit', prepareFfmpeg, { more: ['--maxWorkers=3'] }),
  vitestPart('outside', prepareFfmpeg),
  vitestPart('media', prepareFfmpeg, { more: ['--maxWorkers=3', ...filesOfCommit('tests/media')], again: true }),
  vitestPart('window', prepareWindow, { more: ['--maxWorkers=3', ...filesOfCommit('tests/e2e')], again: true }),
];

interface PartOptions {
  readonly more?: readonly string[];
  readonly again?: boolean;
}

function vitestPart(name: string, prepare: Part['prepare'], { more = [], again = false }: PartOptions = {}): Part {
  return { name, steps: [{ name, vitest: ['--project', name, ...more], again }], prepare };
}

async function prepareFfmpeg(_projectFolder: string, say: (line: string) => void): Promise<void> {
  await takeFfmpeg(say);
  await makeLeanFfmpeg(say);
}

async function prepareWindow(projectFolder: string, say: (line: string) => void): Promise<void> {
  await prepareFfmpeg(projectFolder, say);
  if (process.platform === 'linux' && !process.env['DISPLAY'] && !process.env['WAYLAND_DISPLAY'])
    await meetNeeds(SCREENLESS_TEST_NEEDS, say);
  await takeElectron(projectFolder, say);
  await buildProgram(projectFolder, say);
}
