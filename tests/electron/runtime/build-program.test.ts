import { mkdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { BUILT_FILES } from '../../../electron/runtime/build-entries.ts';
import { isFresh } from '../../../electron/runtime/build-program.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';

const OLD = 1_700_000_000;
const BUILT = OLD + 100;
const OUTPUTS = [
  ...[
    'main',
    'still-worker',
    'talk-worker',
    'pose-process',
    'follow-worker',
    'paint-worker',
    'frame-server',
    'probe-process',
    'container-process',
  ].map((name) => `out/main/${name}.js`),
  ...['out/preload/preload.cjs', 'out/renderer/index.html'],
];

/** A project that was built a while after its sources were last changed. */
function builtProject() {
  const project = temporaryFolder();
  const put = (path: string, seconds: number): void => {
    const file = join(project, path);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, '');
    utimesSync(file, seconds, seconds);
    for (let folder = dirname(file); folder !== project; folder = dirname(folder)) utimesSync(folder, seconds, seconds);
  };
  for (const path of ['electron/main.ts', 'renderer/views/page.tsx', 'core/model/mark.ts', 'package-lock.json'])
    put(path, OLD);
  for (const path of OUTPUTS) put(path, BUILT);
  return { project, put };
}

test('what was built after the last change is fresh', () => {
  expect(isFresh(builtProject().project)).toBe(true);
});

test('a change, a new file or a removed file deep in the sources makes it stale', () => {
  const changed = builtProject();
  changed.put('renderer/views/page.tsx', BUILT + 1);
  expect(isFresh(changed.project)).toBe(false);

  const added = builtProject();
  added.put('core/model/new.ts', BUILT + 1);
  expect(isFresh(added.project)).toBe(false);

  const removed = builtProject();
  rmSync(join(removed.project, 'core/model/mark.ts'));
  expect(isFresh(removed.project)).toBe(false);
});

test('every output has to be there, and none is built that is not asked for', () => {
  expect([...BUILT_FILES].sort()).toEqual([...OUTPUTS].sort());
  const config = readFileSync(join(import.meta.dirname, '..', '..', '..', 'electron.vite.config.ts'), 'utf8');
  expect(config).toContain('input: MAIN_ENTRIES,');
  for (const output of OUTPUTS) {
    const { project } = builtProject();
    rmSync(join(project, output));
    expect(isFresh(project), output).toBe(false);
  }
});

test('a change in tests or in the README builds nothing', () => {
  const { project, put } = builtProject();
  put('tests/run.ts', BUILT + 1);
  put('README.md', BUILT + 1);
  expect(isFresh(project)).toBe(true);
});
