import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readGoalsFile } from '../../../core/goals-file/read-goals-file.ts';
import { writeGoalsFile } from '../../../core/goals-file/write-goals-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';
import { range, sampleGoals } from './sample-goals.ts';

describe('goals on the disk', () => {
  it('comes back as it was, and leaves nothing else behind', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'mine.json');
    await writeGoalsFile(path, sampleGoals());
    expect(await readGoalsFile(path)).toEqual(sampleGoals());
    expect(readdirSync(folder)).toEqual(['mine.json']);
    await expectRefused(writeGoalsFile(path, sampleGoals()), 'file-exists');
    await writeGoalsFile(path, { ...sampleGoals(), name: 'Later' }, { overwrite: true });
    expect((await readGoalsFile(path)).name).toBe('Later');
  });

  it('is never written where it could not be read back', async () => {
    const folder = temporaryFolder();
    const wrong = { ...sampleGoals(), wanted: [range({ from: 2, to: 1 })] };
    await expectRefused(writeGoalsFile(join(folder, 'a.json'), wrong), 'goals-file-invalid', /wanted\[0\]/);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('says which line is no JSON', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'mine.json');
    await writeGoalsFile(path, sampleGoals());
    const lines = readFileSync(path, 'utf8').split('\n');
    lines[4] = `${lines[4] ?? ''} oops`;
    writeFileSync(path, lines.join('\n'));
    await expectRefused(readGoalsFile(path), 'goals-file-invalid', /mine\.json is not JSON from line 5 on/);
  });

  it('is refused when it is absent, empty, a folder, too large or no text', async () => {
    const folder = temporaryFolder();
    const file = (name: string, content: string | Buffer) => {
      writeFileSync(join(folder, name), content);
      return readGoalsFile(join(folder, name));
    };
    await expectRefused(readGoalsFile(join(folder, 'none.json')), 'file-not-found');
    await expectRefused(readGoalsFile(folder), 'file-unreadable');
    await expectRefused(file('empty.json', ''), 'file-empty');
    await expectRefused(file('large.json', ' '.repeat(4 * 1024 * 1024 + 1)), 'goals-file-invalid', /too large/);
    await expectRefused(file('bytes.json', Buffer.from([0xff, 0xfe, 0x00])), 'goals-file-invalid', /is not JSON/);
    await expectRefused(file('list.json', '[]'), 'goals-file-invalid', /format is missing/);
  });
});
