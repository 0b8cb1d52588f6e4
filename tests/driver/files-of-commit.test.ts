import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { BESIDE, filesOfCommit, GROUPS } from '../support/files-of-commit.ts';

const ROOT = join(import.meta.dirname, '..', '..');

test.each(Object.keys(BESIDE))(
  'commits that draw differently run every file of %s, those beside the job once',
  (folder) => {
    const all = readdirSync(join(ROOT, folder)).filter((name) => name.endsWith('.test.ts'));
    const beside = (BESIDE[folder] ?? []).map((name) => `${folder}/${name}.test.ts`);
    const runs = GROUPS.map((group) => filesOfCommit(folder, [group]));
    expect(new Set(runs.flat())).toEqual(new Set(all.map((name) => `${folder}/${name}`)));
    for (const file of new Set(runs.flat()))
      expect({ file, times: runs.filter((run) => run.includes(file)).length }).toEqual({
        file,
        times: beside.includes(file) ? 1 : GROUPS.length,
      });
    // A name in the list that no file has any more would be left out for ever without anyone seeing it.
    for (const file of beside) expect(runs.flat()).toContain(file);
    expect(filesOfCommit(folder, GROUPS)).toHaveLength(all.length);
  },
);
