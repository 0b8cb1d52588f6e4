import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, renameSync, symlinkSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { constants } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openBook } from '../../../core/book/open-book.ts';
import { writePicture } from '../../../core/cli/write-picture.ts';
import {
  isAbsent,
  isTaken,
  readingTrouble,
  reportedWritingTrouble,
  systemTrouble,
  writingTrouble,
} from '../../../core/files/file-trouble.ts';
import { hashFile } from '../../../core/files/hash-file.ts';
import { writeWholeFile } from '../../../core/files/write-whole-file.ts';
import { AppError } from '../../../core/model/errors.ts';
import { readGoalsFile } from '../../../core/goals-file/read-goals-file.ts';
import { writeGoalsFile } from '../../../core/goals-file/write-goals-file.ts';
import { readSwingFile } from '../../../core/swing-file/read-swing-file.ts';
import { writeSwingFile } from '../../../core/swing-file/write-swing-file.ts';
import { readClipFile } from '../../../core/video/index/clip-format.ts';
import { writeSettings } from '../../../electron/settings-file.ts';
import { USUAL_SETTINGS } from '../../../core/model/settings.ts';
import { drawn } from '../../support/drawn.ts';
import { sized } from '../../support/sized.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused, expectThrown, expectTrouble } from '../../support/trouble.ts';
import { sampleGoals } from '../goals-file/sample-goals.ts';
import { sampleSwing } from '../swing-file/sample-swing.ts';

/** A code of the system, or the words that it puts beside one. The end of a temporary folder's name, after a dash, is no code. */
const JARGON = /(?<!-)\bE[A-Z0-9]{3,}\b|errno|syscall|illegal operation|not permitted/;

function thrownBy(work: () => unknown): unknown {
  try {
    work();
  } catch (error) {
    return error;
  }
  throw new Error('nothing was thrown');
}

/** Paths at which a file can be neither read nor written, for real. */
function badPaths() {
  const folder = temporaryFolder();
  const file = join(folder, 'note.txt');
  writeFileSync(file, 'a note');
  const circle = join(folder, 'circle');
  symlinkSync(circle, circle);
  return { folder, through: join(file, 'clip.mp4'), long: join(folder, `${'a'.repeat(300)}.mp4`), circle };
}

describe('whatever a system says about a file', () => {
  it.each(Object.keys(constants.errno))('%s is a sentence without its code, which stays in the detail', (code) => {
    const said = Object.assign(new Error(`${code}: refused`), { code, syscall: 'open', path: '/bay/clip.mp4' });
    for (const trouble of [
      readingTrouble(said, '/bay/clip.mp4'),
      writingTrouble(said, '/bay/clip.mp4'),
      systemTrouble(said),
    ]) {
      if (!(trouble instanceof AppError)) throw new Error(`${code} has no sentence`);
      expect(trouble.message).not.toMatch(JARGON);
      expect(trouble.message).toMatch(/^[^(]*\.$/);
      expect(trouble.detail).toEqual({ path: '/bay/clip.mp4', code });
      expect(trouble.cause).toBe(said);
    }
  });

  it('is told by what is to be done', () => {
    const read = (code: string) => readingTrouble({ code }, '/bay/clip.mp4');
    const write = (code: string) => writingTrouble({ code }, '/bay/still.png');
    expectTrouble(read('EISDIR'), 'file-unreadable', /is a folder, not a file\. Choose a file in it\.$/);
    expectTrouble(write('EISDIR'), 'not-writable', /is a folder.*Choose another name\.$/);
    expectTrouble(read('EBUSY'), 'file-unreadable', /Another program is using .*Close it there and try again\.$/);
    expectTrouble(write('EROFS'), 'not-writable', /can only be read\. Choose a folder on another disk\.$/);
    expectTrouble(write('ENOSPC'), 'disk-full', /Make room and try again\.$/);
    expectTrouble(read('EMFILE'), 'file-unreadable', /Close other programs, or restart the computer, and try again\.$/);
    expectTrouble(read('EIO'), 'file-unreadable', /plugged in, and try again\.$/);
    expectTrouble(write('ENOENT'), 'not-writable', /^There is no folder \/bay\. Make it first/);
  });

  it('is left alone where it is no word of a file system', () => {
    for (const error of [
      new AppError('cancelled', 'Cancelled.'),
      new TypeError('x is not a function'),
      Object.assign(new Error('bad text'), { code: 'ERR_ENCODING_INVALID_ENCODED_DATA' }),
      Object.assign(new Error('broken rule'), { code: 'SQLITE_CONSTRAINT' }),
      null,
      'EISDIR',
    ]) {
      expect(readingTrouble(error, '/a')).toBe(error);
      expect(writingTrouble(error, '/a')).toBe(error);
      expect(systemTrouble(error)).toBe(error);
    }
    const gone = Object.assign(new Error('no network'), { code: 'ECONNREFUSED', syscall: 'connect' });
    expect(systemTrouble(gone)).toBe(gone);
    expect([isAbsent({ code: 'ENOTDIR' }), isTaken({ code: 'EEXIST' }), isAbsent({ code: 'EACCES' })]).toEqual([
      true,
      true,
      false,
    ]);
  });

  it('is found in what a program reports, and only at the end of a line', () => {
    const report = '[out#0] Error opening output\nfile:/bay/a.mp4: Permission denied\n';
    expectTrouble(reportedWritingTrouble(report, '/bay/a.mp4'), 'not-writable', /not allowed to write \/bay\/a\.mp4/);
    expectTrouble(reportedWritingTrouble('av: No space left on device', '/bay/a.mp4'), 'disk-full');
    expect(reportedWritingTrouble('Permission denied: by the format', '/bay/a.mp4')).toBeNull();
    expect(reportedWritingTrouble('', '/bay/a.mp4')).toBeNull();
  });

  it('is told as well where Node found it out before the system was asked', async () => {
    const { folder } = badPaths();
    const said = await rm(folder).catch((error: unknown) => error);
    expect(said).toMatchObject({ code: 'ERR_FS_EISDIR' });
    for (const trouble of [writingTrouble(said, folder), systemTrouble(said)])
      expect(expectTrouble(trouble, 'not-writable', /is a folder/).detail).toEqual({ path: folder, code: 'EISDIR' });
  });

  it('of which nobody said what was being done, is told by what the system itself says', () => {
    const { folder, through, long } = badPaths();
    expectTrouble(systemTrouble(thrownBy(() => readFileSync(through))), 'file-not-found', /no folder/);
    expectTrouble(systemTrouble(thrownBy(() => readFileSync(long))), 'file-unreadable', /too long/);
    // Reading a folder names no path.
    expectTrouble(systemTrouble(thrownBy(() => readFileSync(folder))), 'file-unreadable', /is a folder/);
    expectTrouble(systemTrouble(thrownBy(() => mkdirSync(through))), 'not-writable', /is a file, not a folder/);
    expectTrouble(systemTrouble(thrownBy(() => renameSync(join(folder, 'note.txt'), '/'))), 'not-writable');
  });
});

describe('what cannot be read', () => {
  it.each([
    ['a clip', (path: string) => readClipFile(path)],
    ['a file to copy', (path: string) => hashFile(path)],
    ['a swing file', (path: string) => readSwingFile(path)],
    ['a goals file', (path: string) => readGoalsFile(path)],
  ])('as %s says what to choose instead', async (_, read) => {
    const { folder, through, long, circle } = badPaths();
    for (const [path, code, sentence] of [
      [folder, 'file-unreadable', /folder|not a file/],
      [through, 'file-not-found', /There is no file at/],
      [long, 'file-unreadable', /^The name “a{24} \.\.\. a{20}\.mp4” is too long/],
      [circle, 'file-unreadable', /round in a circle/],
      [join(folder, 'none.mp4'), 'file-not-found', /Check its name/],
    ] as const) {
      const { message } = await expectRefused(read(path), code, sentence);
      expect(message).not.toMatch(JARGON);
    }
  });
});

describe('what cannot be written', () => {
  it.each([
    ['a file', (path: string) => writeWholeFile(path, 'text', { overwrite: true })],
    ['a swing file', (path: string) => writeSwingFile(path, sampleSwing(), { overwrite: true })],
    ['a goals file', (path: string) => writeGoalsFile(path, sampleGoals(), { overwrite: true })],
  ])('as %s says what to choose instead', async (_, write) => {
    const { folder, through, long } = badPaths();
    for (const [path, sentence] of [
      [folder, /is a folder.*Choose another name\.$/],
      [through, /is a file, not a folder/],
      [long, /is too long.*Choose a shorter one\.$/],
      [join(folder, 'none', 'a.json'), /^There is no folder .*none\. Make it first/],
    ] as const) {
      const { message } = await expectRefused(write(path), 'not-writable', sentence);
      expect(message).not.toMatch(JARGON);
    }
  });

  it('as a picture, settings or a book says so too', async () => {
    const { folder, through, long } = badPaths();
    const png = new Uint8Array([1]);
    for (const path of [folder, through, long]) {
      const trouble = await writePicture(path, png).then(
        () => null,
        (error: unknown) => error,
      );
      expect(trouble instanceof AppError ? trouble.message : 'no sentence').not.toMatch(/no sentence/);
      expect(String(trouble)).not.toMatch(JARGON);
    }
    await expectRefused(writeSettings(join(through, 'settings.json'), USUAL_SETTINGS), 'not-writable', /is a file/);
    for (const path of [through, long])
      expect(expectThrown(() => openBook(path), 'not-writable').message).not.toMatch(JARGON);
    const book = join(folder, 'book');
    mkdirSync(join(book, 'book.sqlite'), { recursive: true });
    expectThrown(() => openBook(book), 'book-damaged');
  });
});

describe('the command line', () => {
  const program = join(import.meta.dirname, '..', '..', '..', 'core', 'cli', 'baybook.mjs');
  /** Nobody's user: the one who may do everything is not refused anything. */
  const user = process.getuid?.() === 0 ? { uid: 65534, gid: 65534 } : {};
  const baybook = (...argv: readonly string[]) =>
    spawnSync(process.execPath, [program, ...argv], {
      encoding: 'utf8',
      ...user,
      cwd: '/',
      env: { PATH: process.env['PATH'], HOME: '/' },
    });

  it('says who may open what it is not allowed to read or to write', () => {
    const folder = temporaryFolder();
    const file = join(folder, 'mine.json');
    writeFileSync(file, '{}');
    chmodSync(file, 0o000);
    chmodSync(folder, 0o555);
    const read = baybook('read', file);
    expect({ status: read.status, said: read.stderr.trim() }).toEqual({
      status: 2,
      said: `Baybook is not allowed to read ${file}. Check who may open it.`,
    });
    const demo = baybook('demo', '--out', join(folder, 'demo'));
    expect({ status: demo.status, said: demo.stderr.trim() }).toEqual({
      status: 2,
      said: `Baybook is not allowed to write ${join(folder, 'demo')}. Choose a folder you may write to.`,
    });
    chmodSync(folder, 0o755);
  });

  const COMMANDS: readonly (readonly [string, (path: string) => string[]])[] = [
    ['frames', (path: string) => ['frames', path]],
    ['still', (path: string) => ['still', path, '--index', '0', '--out', '/nowhere/a.png']],
    ['read', (path: string) => ['read', path]],
    ['compare', (path: string) => ['compare', path, path]],
    ['sheet', (path: string) => ['sheet', path, '--out', path]],
    ['demo', (path: string) => ['demo', '--out', path]],
    ['goals import', (path: string) => ['goals', 'import', path]],
    ['read with goals', (path: string) => ['compare', path, path, '--goals', path]],
    ['read with a book', (path: string) => ['read', path, '--book', path]],
  ];

  it.each(drawn(COMMANDS, 0, 3))('%s gives one sentence for a bad path', (name, argv) => {
    const { folder, through, long } = badPaths();
    const all = [folder, through, long];
    // Per commit another one for each of three commands: each takes the start of a program.
    for (const path of sized([all[name.length % all.length] ?? folder], all)) {
      const { status, stderr } = baybook(...argv(path));
      expect(status).toBe(2);
      expect(stderr.trim()).not.toMatch(JARGON);
      expect(stderr.trim()).not.toMatch(/\n|could not go on/);
    }
  });
});
