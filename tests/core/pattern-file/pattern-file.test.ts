import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readPatternFile } from '../../../core/pattern-file/read-pattern-file.ts';
import { writePatternFile } from '../../../core/pattern-file/write-pattern-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';
import { range, samplePattern } from './sample-pattern.ts';

describe('a pattern on the disk', () => {
  it('comes back as it was, and leaves nothing else behind', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'mine.json');
    await writePatternFile(path, samplePattern());
    expect(await readPatternFile(path)).toEqual(samplePattern());
    expect(readdirSync(folder)).toEqual(['mine.json']);
    await expectRefused(writePatternFile(path, samplePattern()), 'file-exists');
    await writePatternFile(path, { ...samplePattern(), name: 'Later' }, { overwrite: true });
    expect((await readPatternFile(path)).name).toBe('Later');
  });

  it('is never written where it could not be read back', async () => {
    const folder = temporaryFolder();
    const wrong = { ...samplePattern(), wanted: [range({ from: 2, to: 1 })] };
    await expectRefused(writePatternFile(join(folder, 'a.json'), wrong), 'pattern-file-invalid', /wanted\[0\]/);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('says which line is no JSON', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'mine.json');
    await writePatternFile(path, samplePattern());
    const lines = readFileSync(path, 'utf8').split('\n');
    lines[4] = `${lines[4] ?? ''} oops`;
    writeFileSync(path, lines.join('\n'));
    await expectRefused(readPatternFile(path), 'pattern-file-invalid', /mine\.json is not JSON from line 5 on/);
  });

  it('is refused when it is absent, empty, a folder, too large or no text', async () => {
    const folder = temporaryFolder();
    const file = (name: string, content: string | Buffer) => {
      writeFileSync(join(folder, name), content);
      return readPatternFile(join(folder, name));
    };
    await expectRefused(readPatternFile(join(folder, 'none.json')), 'file-not-found');
    await expectRefused(readPatternFile(folder), 'file-unreadable');
    await expectRefused(file('empty.json', ''), 'file-empty');
    await expectRefused(file('large.json', ' '.repeat(4 * 1024 * 1024 + 1)), 'pattern-file-invalid', /too large/);
    await expectRefused(file('bytes.json', Buffer.from([0xff, 0xfe, 0x00])), 'pattern-file-invalid', /is not JSON/);
    await expectRefused(file('list.json', '[]'), 'pattern-file-invalid', /format is missing/);
  });
});
