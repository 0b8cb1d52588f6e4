import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { clipPath, relinkClip, storeClipFile, takeIntoUse } from '../../../core/book/media.ts';
import type { Book } from '../../../core/book/open-book.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused, expectThrown } from '../../support/trouble.ts';
import { addSample, addSampleClip, sampleFrame, sampleIndex } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const mediaOf = (book: Book): string[] => readdirSync(join(book.folder, 'media'));
const digest = (content: string | Buffer): string => createHash('sha256').update(content).digest('hex');

function writeFile(content: string | Buffer, name = 'swing.mp4'): string {
  const path = join(temporaryFolder(), name);
  writeFileSync(path, content);
  return path;
}

describe('storing', () => {
  test('a copy is named by its content and is the same to the byte', async () => {
    const book = newBook();
    const content = Buffer.alloc(2_500_000, 'golf');
    const path = writeFile(content, 'My swing.MOV');
    const progress: [number, number][] = [];
    const stored = await storeClipFile(book, path, { how: 'copied', onProgress: (...step) => progress.push(step) });
    expect(mediaOf(book)).toEqual([`${digest(content)}.mov`]);
    expect(stored).toMatchObject({ sha256: digest(content), bytes: 2_500_000, how: 'copied' });
    expect(readFileSync(stored.path).equals(content)).toBe(true);
    expect(progress).toEqual([1048576, 2097152, 2500000].map((done) => [done, 2500000]));
  });

  test('the same content under two names, also at the same moment, is stored once', async () => {
    const book = newBook();
    const paths = [writeFile('same', 'a.mp4'), writeFile('same', 'b.mp4'), writeFile('same', 'a.mp4')];
    const stored = await Promise.all(paths.map((path) => storeClipFile(book, path, { how: 'copied' })));
    const later = await storeClipFile(book, writeFile('same', 'c.mov'), { how: 'copied' });
    expect(mediaOf(book)).toEqual([`${digest('same')}.mp4`]);
    expect(new Set([...stored, later].map(({ path }) => path)).size).toBe(1);
  });

  test('a stored copy that lost bytes is replaced by a whole one', async () => {
    const book = newBook();
    const path = writeFile('whole content');
    const { path: stored } = await storeClipFile(book, path, { how: 'copied' });
    writeFileSync(stored, 'whole');
    await storeClipFile(book, path, { how: 'copied' });
    expect(readFileSync(stored, 'utf8')).toBe('whole content');
  });

  test('a linked file is only read', async () => {
    const book = newBook();
    const path = writeFile('linked');
    const stored = await storeClipFile(book, path, { how: 'linked' });
    expect(stored).toEqual({
      ...{ sha256: digest('linked'), bytes: 6, path, how: 'linked' },
      modifiedMs: statSync(path).mtimeMs,
    });
    expect(mediaOf(book)).toEqual([]);
  });

  test.each(['copied', 'linked'] as const)(
    'what is no readable file is refused and leaves nothing (%s)',
    async (how) => {
      const book = newBook();
      const folder = temporaryFolder();
      await expectRefused(storeClipFile(book, join(folder, 'gone.mp4'), { how }), 'file-not-found', /no file at/);
      await expectRefused(storeClipFile(book, folder, { how }), 'file-unreadable', /folder/);
      await expectRefused(storeClipFile(book, writeFile(''), { how }), 'file-empty', /is empty/);
      await expectRefused(storeClipFile(book, '/dev/zero', { how }), 'file-unreadable', /device/);
      expect(mediaOf(book)).toEqual([]);
    },
  );

  test('a cancel before, in the middle and at the end leaves nothing', async () => {
    const book = newBook();
    const path = writeFile(Buffer.alloc(3_000_000));
    for (const after of [0, 1048576, 3_000_000]) {
      const cancel = new AbortController();
      if (after === 0) cancel.abort();
      const onProgress = (done: number) => {
        if (done >= after) cancel.abort();
      };
      const storing = storeClipFile(book, path, { how: 'copied', signal: cancel.signal, onProgress });
      await expectRefused(storing, 'cancelled');
      expect(mediaOf(book)).toEqual([]);
    }
  });

  test('a file that grows while it is read is refused', async () => {
    const book = newBook();
    const path = writeFile(Buffer.alloc(3_000_000));
    const onProgress = () => {
      writeFileSync(path, 'more', { flag: 'a' });
    };
    const storing = storeClipFile(book, path, { how: 'copied', onProgress });
    await expectRefused(storing, 'clip-changed', /still being written/);
    expect(mediaOf(book)).toEqual([]);
  });

  test('a media folder that vanished is named, and the next try after it is back succeeds', async () => {
    const book = newBook();
    rmSync(join(book.folder, 'media'), { recursive: true });
    await expectRefused(storeClipFile(book, writeFile('x'), { how: 'copied' }), 'not-writable', /media/);
    mkdirSync(join(book.folder, 'media'));
    await storeClipFile(book, writeFile('x'), { how: 'copied' });
    expect(mediaOf(book)).toHaveLength(1);
  });

  test('half copies of a killed program are cleared at the next opening, whole files are left', async () => {
    const book = newBook();
    const { path } = await storeClipFile(book, writeFile('whole'), { how: 'copied' });
    writeFileSync(join(book.folder, 'media', 'half.incoming'), 'ha');
    writeFileSync(join(book.folder, 'media', 'note of the coach.txt'), 'keep');
    book.close();
    expect(mediaOf(reopen(book.folder)).toSorted()).toEqual([`${digest('whole')}.mp4`, 'note of the coach.txt']);
    expect(readFileSync(path, 'utf8')).toBe('whole');
  });

  test('a file deleted between storing and adding makes no clip', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const file = await storeClipFile(book, writeFile('x'), { how: 'copied' });
    rmSync(file.path);
    const clip = { swingId: swing.id, view: 'face-on', originalName: 'x.mp4', file, index: sampleIndex() } as const;
    expectThrown(() => book.addClip(clip), 'file-not-found', /Add the clip again/);
    expect(book.openSwing(swing.id).clips).toEqual([]);
  });
});

describe('a stored file whose row cannot be written', () => {
  const fail = (): never => {
    throw new Error('the row was not written');
  };

  test('is deleted, unless a clip uses it or it is only linked', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    await addSampleClip(book, swing.id, { content: 'used' });
    const store = (content: string, how: 'copied' | 'linked') => storeClipFile(book, writeFile(content), { how });
    const [used, unused] = [await store('used', 'copied'), await store('unused', 'copied')];
    const linked = await store('linked', 'linked');
    for (const file of [used, unused, linked]) expect(() => takeIntoUse(book, file, fail)).toThrow('was not written');
    expect(mediaOf(book)).toEqual([`${digest('used')}.mp4`]);
    expect(readFileSync(linked.path, 'utf8')).toBe('linked');
  });

  test('that cannot be deleted now goes at the next opening', async () => {
    const book = newBook();
    const file = await storeClipFile(book, writeFile('stuck'), { how: 'copied' });
    // A folder in its place cannot be deleted as a file.
    rmSync(file.path);
    mkdirSync(file.path);
    expect(() => takeIntoUse(book, file, fail)).toThrow('was not written');
    rmSync(file.path, { recursive: true });
    writeFileSync(file.path, 'stuck');
    book.close();
    expect(mediaOf(reopen(book.folder))).toEqual([]);
  });

  test('tells its own trouble, also when the book was closed meanwhile', async () => {
    const book = newBook();
    const file = await storeClipFile(book, writeFile('x'), { how: 'copied' });
    book.close();
    expect(() => takeIntoUse(book, file, fail)).toThrow('was not written');
  });
});

describe('removing', () => {
  test('a media file goes with the last clip that uses it, at whatever level the removal is', async () => {
    const book = newBook();
    const [ash, bo] = [addSample(book, 'Ash'), addSample(book, 'Bo')];
    const shared = [
      await addSampleClip(book, ash.swing.id, { content: 'shared' }),
      await addSampleClip(book, bo.swing.id, { content: 'shared' }),
    ];
    await addSampleClip(book, bo.swing.id, { content: 'own', view: 'down-the-line' });
    expect(mediaOf(book)).toHaveLength(2);
    book.removeStudent(ash.student.id);
    expect(mediaOf(book)).toHaveLength(2);
    expectThrown(() => book.findClip(shared[0]?.id ?? ''), 'no-such-record');
    book.removeClip(shared[1]?.id ?? '');
    expect(mediaOf(book)).toEqual([`${digest('own')}.mp4`]);
    book.removeLesson(bo.lesson.id);
    expect(mediaOf(book)).toEqual([]);
    expect(book.listStudents()).toEqual([{ student: bo.student, lessons: [] }]);
  });

  test('a linked file is never deleted', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id, { how: 'linked' });
    const path = await clipPath(book, clip.id);
    book.removeSwing(swing.id);
    expect(readFileSync(path, 'utf8')).toBe('bytes of a clip');
  });

  test('a removal cut short between rows and file is finished at the next opening', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const path = await clipPath(book, clip.id);
    book.removeClip(clip.id);
    // What a kill would have left: the file still there, noted as unwanted.
    writeFileSync(path, 'bytes of a clip');
    book.database.run('INSERT INTO unwanted_media (file) VALUES (?)', path.slice(path.lastIndexOf('/') + 1));
    book.close();
    expect(mediaOf(reopen(book.folder))).toEqual([]);
  });

  test('a name in the book that leads out of the media folder deletes and opens nothing', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const outside = join(book.folder, 'outside.mp4');
    writeFileSync(outside, 'bytes of a clip');
    book.database.run("UPDATE clip SET file = '../outside.mp4' WHERE id = ?", clip.id);
    await expectRefused(clipPath(book, clip.id), 'book-damaged', /outside its media folder/);
    book.removeClip(clip.id);
    expect(readFileSync(outside, 'utf8')).toBe('bytes of a clip');
  });
});

describe('finding a clip again', () => {
  async function linkedClip() {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id, { how: 'linked' });
    return { book, clip, swing, path: await clipPath(book, clip.id) };
  }

  test('a moved file is said to be moved, and can be shown to the book with all marks kept', async () => {
    const { book, clip, path } = await linkedClip();
    const marks = { frame: sampleFrame(1), points: { ball: { x: 1, y: 2, hidden: false } }, shapes: [] };
    book.saveMarks(clip.id, marks);
    const elsewhere = join(temporaryFolder(), 'renamed.mp4');
    renameSync(path, elsewhere);
    const trouble = await expectRefused(clipPath(book, clip.id), 'clip-moved', /show Baybook where it is now/);
    expect(trouble.message).toContain(path);
    expect(await relinkClip(book, clip.id, elsewhere)).toEqual(clip);
    expect(await clipPath(book, clip.id)).toBe(elsewhere);
    expect(book.readMarks(clip.id)).toEqual([marks]);
  });

  test('another file is not taken for the clip', async () => {
    const { book, clip, path } = await linkedClip();
    await expectRefused(relinkClip(book, clip.id, writeFile('bytes of a clap')), 'clip-changed', /content differs/);
    await expectRefused(relinkClip(book, clip.id, join(path, 'x')), 'file-not-found');
    await expectRefused(relinkClip(book, '', path), 'no-such-record');
    expect(await clipPath(book, clip.id)).toBe(path);
  });

  test('a changed file is noticed by its size, and by its content when only the time tells', async () => {
    const { book, clip, path } = await linkedClip();
    writeFileSync(path, 'bytes of a clip, cut anew');
    await expectRefused(clipPath(book, clip.id), 'clip-changed', /not the one that was added as "swing\.mp4"/);
    writeFileSync(path, 'bytes of a clap');
    await expectRefused(clipPath(book, clip.id), 'clip-changed');
    writeFileSync(path, 'bytes of a clip');
    utimesSync(path, 1, 1);
    expect(await clipPath(book, clip.id)).toBe(path);
    expect(await clipPath(book, clip.id)).toBe(path);
    rmSync(path);
    mkdirSync(path);
    await expectRefused(clipPath(book, clip.id), 'clip-moved');
  });

  test('a copy that comes back for a clip removed meanwhile does not stay', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    rmSync(await clipPath(book, clip.id));
    const onProgress = (done: number, total: number): void => {
      if (done === total) book.removeClip(clip.id);
    };
    const source = join(book.folder, '..', 'swing.mp4');
    await expectRefused(relinkClip(book, clip.id, source, { onProgress }), 'no-such-record');
    expect(mediaOf(book)).toEqual([]);
  });

  test('a lost copy is put back from the file it came from', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const path = await clipPath(book, clip.id);
    rmSync(path);
    await expectRefused(clipPath(book, clip.id), 'clip-moved');
    expect(await relinkClip(book, clip.id, join(book.folder, '..', 'swing.mp4'))).toEqual(clip);
    expect(await clipPath(book, clip.id)).toBe(path);
  });

  test('a lost part of a clip is not taken from the whole of it, only from its own bytes', async () => {
    const book = newBook();
    const { swing } = addSample(book);
    const file = await storeClipFile(book, writeFile('the part'), { how: 'copied' });
    const order = {
      swingId: swing.id,
      view: 'face-on',
      originalName: 'long.mp4',
      file,
      index: sampleIndex(5),
    } as const;
    const clip = book.addClip({ ...order, kept: { first: 100, of: 2000 } });
    expect(book.findClip(clip.id).kept).toEqual({ first: 100, of: 2000 });
    rmSync(await clipPath(book, clip.id));
    const whole = relinkClip(book, clip.id, writeFile('before it, the part, and after it', 'long.mp4'));
    await expectRefused(whole, 'clip-changed', /^Of "long\.mp4" the book kept only a part.*Put its file \w+\.mp4 back/);
    expect(await relinkClip(book, clip.id, writeFile('the part'))).toEqual(clip);
  });
});

describe('a folder to work in', () => {
  test('lies with the media, goes away with the work however it ends, and after a kill', async () => {
    const book = newBook();
    const make = (folder: string): void => writeFileSync(join(folder, 'part.mp4'), 'part');
    expect(await book.media.withWorkFolder(async (folder) => (make(folder), mediaOf(book).length))).toBe(1);
    const failing = book.media.withWorkFolder(async (folder) => {
      make(folder);
      throw new Error('no more');
    });
    await expect(failing).rejects.toThrow('no more');
    expect(mediaOf(book)).toEqual([]);
    mkdirSync(join(book.folder, 'media', 'killed.incoming'));
    make(join(book.folder, 'media', 'killed.incoming'));
    book.close();
    expect(mediaOf(reopen(book.folder))).toEqual([]);
  });
});

test('a part of a clip that does not lie within the whole is refused', async () => {
  const book = newBook();
  const { swing } = addSample(book);
  const file = await storeClipFile(book, writeFile('x'), { how: 'copied' });
  const order = { swingId: swing.id, view: 'face-on', originalName: 'long.mp4', file, index: sampleIndex(5) } as const;
  for (const kept of [
    { first: -1, of: 10 },
    { first: 6, of: 10 },
    { first: 0.5, of: 10 },
    { first: 0, of: Number.NaN },
  ])
    expect(() => book.addClip({ ...order, kept })).toThrow(/part/);
  expect(book.addClip({ ...order, kept: { first: 5, of: 10 } }).kept).toEqual({ first: 5, of: 10 });
});
