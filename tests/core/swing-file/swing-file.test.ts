import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { clipFileOf } from '../../../core/swing-file/clip-file-of.ts';
import { parseSwingFile } from '../../../core/swing-file/parse-swing-file.ts';
import { MAXIMUM_SWING_FILE_BYTES, readSwingFile } from '../../../core/swing-file/read-swing-file.ts';
import { EMPTY_PAGE } from '../../../core/model/lesson-page.ts';
import { bareSwingOf } from '../../../core/model/swing.ts';
import { swingFileOf } from '../../../core/swing-file/swing-file-of.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused, expectThrown } from '../../support/trouble.ts';
import { sampleBookSwing, sampleSwing } from './sample-swing.ts';

describe('writing and reading', () => {
  test('what was written is read back to the last bit, and the folder with it', async () => {
    const folder = temporaryFolder();
    await writeSwingFile(join(folder, 'swing.json'), sampleSwing());
    expect(await readSwingFile(join(folder, 'swing.json'))).toEqual({ swing: sampleSwing(), folder });
    expect(readdirSync(folder)).toEqual(['swing.json']);
  });

  test('a file that is there is left as it is, unless it shall be replaced', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'swing.json');
    writeFileSync(path, 'mine');
    await expectRefused(writeSwingFile(path, sampleSwing()), 'file-exists', /already there and was left/);
    expect([readFileSync(path, 'utf8'), readdirSync(folder)]).toEqual(['mine', ['swing.json']]);
    await writeSwingFile(path, sampleSwing(), { overwrite: true });
    expect((await readSwingFile(path)).swing).toEqual(sampleSwing());
    expect(readdirSync(folder)).toEqual(['swing.json']);
  });

  test('of two that write one new file at the same moment, one wins whole and the other is told', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    const outcomes = await Promise.allSettled([1, 2, 3, 4].map(() => writeSwingFile(path, sampleSwing())));
    expect(outcomes.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    expect((await readSwingFile(path)).swing).toEqual(sampleSwing());
  });

  test('a folder that is not there, or a folder in its place, is named', async () => {
    const folder = temporaryFolder();
    await expectRefused(writeSwingFile(join(folder, 'no', 'swing.json'), sampleSwing()), 'not-writable', /no/);
    mkdirSync(join(folder, 'taken'));
    await expectRefused(writeSwingFile(join(folder, 'taken'), sampleSwing()), 'file-exists');
    await expectRefused(writeSwingFile(join(folder, 'taken'), sampleSwing(), { overwrite: true }), 'not-writable');
    expect(readdirSync(folder)).toEqual(['taken']);
  });

  test('a swing that would not be read back is not written', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    const swing = { ...sampleSwing(), lesson: { ...sampleSwing().lesson, date: 'yesterday' } };
    await expectRefused(writeSwingFile(path, swing), 'swing-file-invalid', /lesson\.date must be a real day/);
    expect(statSync(path, { throwIfNoEntry: false })).toBeUndefined();
  });

  test.each<[string, string | Buffer, 'file-empty' | 'swing-file-invalid', RegExp]>([
    ['an empty file', '', 'file-empty', /is empty/],
    ['half a file', JSON.stringify(sampleSwing()).slice(0, 500), 'swing-file-invalid', /is not JSON/],
    [
      'bytes of a video',
      Buffer.from([0, 0, 0, 0x18, 0x66, 0x74, 0x79, 0x70, 0xff, 0xfe]),
      'swing-file-invalid',
      /is not JSON/,
    ],
    ['other JSON', '{"name": "baybook"}', 'swing-file-invalid', /format is missing/],
    ['a list', '[]', 'swing-file-invalid', /content must be an object|format is missing/],
  ])('%s is refused with one sentence', async (_, content, code, sentence) => {
    const path = join(temporaryFolder(), 'swing.json');
    writeFileSync(path, content);
    await expectRefused(readSwingFile(path), code, sentence);
  });

  test('what is not there, is a folder, or is far too large is not read', async () => {
    const folder = temporaryFolder();
    await expectRefused(readSwingFile(join(folder, 'gone.json')), 'file-not-found', /gone\.json/);
    await expectRefused(readSwingFile(folder), 'file-unreadable');
    const path = join(folder, 'large.json');
    writeFileSync(path, Buffer.alloc(MAXIMUM_SWING_FILE_BYTES + 1, ' '));
    await expectRefused(readSwingFile(path), 'swing-file-invalid', /too large/);
  });

  test('a byte order mark, as some editors write it, does no harm', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    writeFileSync(path, `\uFEFF${JSON.stringify(sampleSwing())}`);
    expect((await readSwingFile(path)).swing).toEqual(sampleSwing());
  });
});

describe('the parser names what is wrong', () => {
  const spoiled = (spoil: (text: string) => string): unknown => JSON.parse(spoil(JSON.stringify(sampleSwing())));
  test.each<[string, (text: string) => string, RegExp]>([
    ['a missing field', (text) => text.replace('"club":"7 iron",', ''), /lesson\.club is missing/],
    ['a misspelt field', (text) => text.replace('"club"', '"clubb"'), /lesson\.(club is missing|clubb is not)/],
    [
      'text for a number',
      (text) => text.replace('"width":1080', '"width":"1080"'),
      /clips\[0\]\.width must be a number/,
    ],
    [
      'half a pixel',
      (text) => text.replace('"width":1080', '"width":1080.5'),
      /clips\[0\]\.width must be a whole number/,
    ],
    [
      'a third view',
      (text) => text.replace('"face-on"', '"behind"'),
      /clips\[1\]\.view must be down-the-line or face-on/,
    ],
    ['an unknown name', (text) => text.replace('"top":', '"summit":'), /clips\[0\]\.checkpoints\.summit/],
    [
      'an infinite place',
      (text) => text.replace('"x":0.1,', '"x":1e999,'),
      /shapes\[6\]\.centre\.x must be a finite number/,
    ],
    ['another format', (text) => text.replace('baybook-swing', 'other'), /format must be baybook-swing/],
    [
      'version 0',
      (text) => text.replace('"version":7', '"version":0'),
      /version must be 1 or 2 or 3 or 4 or 5 or 6 or 7/,
    ],
  ])('%s', (_, spoil, sentence) => {
    expectThrown(() => parseSwingFile(spoiled(spoil)), 'swing-file-invalid', sentence);
  });

  test.each([1, 2, 3, 4])('a file of version %d is read, and has an empty page', (version) => {
    const older = { ...sampleSwing(), page: undefined, version };
    const read = parseSwingFile(JSON.parse(JSON.stringify(older)));
    expect(read.clips).toHaveLength(2);
    expect(read.page).toEqual(EMPTY_PAGE);
  });

  test('a newer version is said to be newer, whatever else it holds', () => {
    const newer = { format: 'baybook-swing', version: 8, somethingNew: [] };
    expectThrown(() => parseSwingFile(newer), 'swing-file-newer', /version 8; .*up to version 7.*Update Baybook/);
  });

  test.each([null, undefined, 7, 'text', [], () => 1])('%s is no swing file', (content) => {
    expectThrown(() => parseSwingFile(content), 'swing-file-invalid');
  });
});

describe('from and to the book', () => {
  test('a swing of the book goes out whole, but of the student only the first name and that it is a child; a consent stays', () => {
    const { clips } = sampleSwing();
    const file = swingFileOf(sampleBookSwing(), (clip) => clip.id.slice('id of '.length));
    expect(parseSwingFile(file)).toEqual({ ...sampleSwing(), clips });
    expect(JSON.stringify(file)).not.toMatch(/Secret|private|IMG_0001|consent/);
  });

  test('a clip within the folder of the file is named from there, every other by its whole path', () => {
    const folder = join(temporaryFolder(), 'lesson');
    const named = (path: string) => swingFileOf(sampleBookSwing(), () => path, folder).clips[0]?.file;
    expect(named(join(folder, 'clips', 'a b.mp4'))).toBe('clips/a b.mp4');
    expect(named(join(folder, '..a.mp4'))).toBe('..a.mp4');
    expect(named(join(folder, '..', 'a.mp4'))).toBe(join(folder, '..', 'a.mp4'));
    expect(named('/elsewhere/a.mp4')).toBe('/elsewhere/a.mp4');
  });

  test('readings get the marks and nothing of files', () => {
    const marked = bareSwingOf(sampleSwing());
    expect(marked).toMatchObject({ studentFirstName: 'Robin', date: '2024-02-29', club: '7 iron', handedness: 'left' });
    expect(marked.clips.map(({ marks }) => marks)).toEqual(sampleSwing().clips.map(({ marks }) => marks));
    expect(JSON.stringify(marked)).not.toContain('mp4');
  });
});

describe('the clip of a swing file', () => {
  const content = 'bytes of a clip';
  const sha256 = createHash('sha256').update(content).digest('hex');

  test('is found from the folder of the file, or by its whole path, when it has the very same bytes', async () => {
    const folder = temporaryFolder();
    mkdirSync(join(folder, 'clips'));
    const path = join(folder, 'clips', 'a.mp4');
    writeFileSync(path, content);
    expect(await clipFileOf({ file: 'clips/a.mp4', sha256 }, folder)).toBe(path);
    expect(await clipFileOf({ file: path, sha256 }, '/nowhere')).toBe(path);
    writeFileSync(path, 'bytes of a clap');
    await expectRefused(clipFileOf({ file: 'clips/a.mp4', sha256 }, folder), 'clip-changed', /content differs/);
    rmSync(path);
    const trouble = await expectRefused(clipFileOf({ file: 'clips/a.mp4', sha256 }, folder), 'clip-moved', /not there/);
    expect(trouble.message).toContain(path);
    await expectRefused(clipFileOf({ file: 'clips', sha256 }, folder), 'file-unreadable', /folder/);
  });
});
