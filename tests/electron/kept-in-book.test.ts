import { randomUUID } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Book } from '../../core/book/book.ts';
import { AppError } from '../../core/model/errors.ts';
import type { Edit, EditWrite } from '../../core/model/edit.ts';
import type { FrameMarks } from '../../core/model/mark.ts';
import { USUAL_SETTINGS } from '../../core/model/settings.ts';
import type { Settings } from '../../core/model/settings.ts';
import type { Unwritten } from '../../electron/ipc/unwritten.ts';
import { KeptInBook } from '../../electron/kept-in-book.ts';
import { addSample, addSampleClip, sampleFrame } from '../core/book/sample.ts';
import { newBook } from '../core/book/with-book.ts';
import { sampleGoals } from '../core/goals-file/sample-goals.ts';
import { heldFile, noFiles } from '../support/held-file.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { expectRefused } from '../support/trouble.ts';

const ballAt = (x: number): FrameMarks => ({
  frame: sampleFrame(2),
  points: x === 0 ? {} : { ball: { x, y: 1 / 3, hidden: false } },
  shapes: [],
});

async function bookWithChanges() {
  const book = newBook();
  const { swing, lesson } = addSample(book);
  const clip = await addSampleClip(book, swing.id);
  const edit = (before: number, after: number, clipId = clip.id): Edit => ({
    ...{ kind: 'marks', swingId: swing.id, clipId },
    ...{ before: ballAt(before), after: ballAt(after) },
  });
  const edits: readonly EditWrite[] = [
    { does: 'make', edit: edit(0, 1) },
    { does: 'continue', edit: edit(1, 2) },
    { does: 'make', edit: edit(2, 7.25) },
    { does: 'undo', lessonId: lesson.id, edit: edit(2, 7.25) },
  ];
  return { book, lesson, swing, clip, edit, unwritten: { edits, goals: null, settings: null } };
}

function keeperOf(book: Book) {
  const [settingsFolder, folder] = [temporaryFolder(), temporaryFolder()];
  const settings: Settings[] = [];
  const notePath = join(settingsFolder, 'kept-changes.json');
  const newKeeper = (): KeptInBook =>
    new KeptInBook({ book, notePath, writeSettings: async (each) => void settings.push(each) });
  return { keeper: newKeeper(), newKeeper, notePath, folder, settings };
}

describe('changes kept in another folder', () => {
  it('come back into the book by themselves at the next start, their steps back too, and the file goes', async () => {
    const { book, lesson, swing, unwritten, edit } = await bookWithChanges();
    const { keeper, newKeeper, folder, notePath } = keeperOf(book);
    const told = await keeper.keep(folder, unwritten);
    const [name = ''] = readdirSync(folder);
    expect(told).toContain(join(folder, name));
    expect(told).toContain('4 changes');

    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
    expect(book.listEdits(lesson.id)).toEqual({ done: [edit(0, 2)], undone: [edit(2, 7.25)] });
    expect([readdirSync(folder), existsSync(notePath)]).toEqual([[], false]);
    expect(await newKeeper().takeInNoted()).toBeNull();
  });

  it('include the goals and the settings', async () => {
    const { book } = await bookWithChanges();
    const { keeper, folder, settings } = keeperOf(book);
    const unwritten: Unwritten = { edits: [], goals: sampleGoals(), settings: USUAL_SETTINGS };
    await keeper.keep(folder, unwritten);
    await keeper.takeInNoted();
    expect(book.readGoals().goals).toEqual(sampleGoals());
    expect(settings).toEqual([USUAL_SETTINGS]);
  });

  it('stay in their file while the book cannot take them, and are all in it or none', async () => {
    const { book, swing, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, folder, notePath } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    book.database.run(`CREATE TRIGGER full BEFORE UPDATE ON edit BEGIN SELECT RAISE(ABORT, 'no room'); END`);
    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: false });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([]);
    expect([readdirSync(folder).length, existsSync(notePath)]).toEqual([1, true]);
    book.database.run('DROP TRIGGER full');
    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
  });

  it('whose clip is gone are counted, and their file stays', async () => {
    const { book, clip, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, folder } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    book.removeClip(clip.id);
    const told = await newKeeper().takeInNoted();
    expect(told?.sentence).toContain('4 changes did not fit');
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('that the book takes leave their file, which keeps the others: brought in by hand, they do not come twice', async () => {
    const { book, lesson, unwritten, edit } = await bookWithChanges();
    const { keeper, newKeeper, folder, settings } = keeperOf(book);
    const lost: EditWrite = { does: 'make', edit: edit(0, 1, randomUUID()) };
    const edits = [lost, ...unwritten.edits];
    await keeper.keep(folder, { edits, goals: sampleGoals(), settings: USUAL_SETTINGS });
    const told = await newKeeper().takeInNoted();
    expect(told?.sentence).toMatch(/^Brought in 6 changes\. 1 change did not fit/);
    const [name = ''] = readdirSync(folder);
    const left: unknown = JSON.parse(readFileSync(join(folder, name), 'utf8'));
    expect(left).toMatchObject({ book: book.folder, edits: [lost], pattern: null, settings: null });
    const before = book.listEdits(lesson.id);
    expect((await newKeeper().takeIn(join(folder, name))).sentence).toMatch(/^Brought in 0 changes\. 1 change/);
    expect([book.listEdits(lesson.id), settings]).toEqual([before, [USUAL_SETTINGS]]);
  });

  it('that were taken before something after them could not be written leave their file as well', async () => {
    const { book, lesson, unwritten } = await bookWithChanges();
    const { folder, notePath } = keeperOf(book);
    let isFull = true;
    const written: Settings[] = [];
    const writeSettings = async (each: Settings): Promise<void> => {
      if (isFull) throw new AppError('disk-full', 'The disk is full.');
      written.push(each);
    };
    const keeper = new KeptInBook({ book, notePath, writeSettings });
    await keeper.keep(folder, { ...unwritten, settings: USUAL_SETTINGS });
    expect(await keeper.takeInNoted()).toMatchObject({ takenIn: false });
    const before = book.listEdits(lesson.id);
    isFull = false;
    expect(await keeper.takeInNoted()).toMatchObject({ takenIn: true });
    expect([book.listEdits(lesson.id), written, readdirSync(folder)]).toEqual([before, [USUAL_SETTINGS], []]);
  });

  it('of two books wait each for its own, and of one book in several files', async () => {
    const [one, other] = [await bookWithChanges(), await bookWithChanges()];
    const { keeper, folder, notePath } = keeperOf(one.book);
    const ofOther = new KeptInBook({ book: other.book, notePath, writeSettings: async () => undefined });
    await keeper.keep(folder, one.unwritten);
    await keeper.keep(folder, { edits: [], goals: sampleGoals(), settings: null });
    await ofOther.keep(folder, other.unwritten);
    expect(await keeper.takeInNoted()).toMatchObject({ takenIn: true });
    expect(one.book.openSwing(one.swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
    expect(one.book.readGoals().goals).toEqual(sampleGoals());
    expect(other.book.openSwing(other.swing.id).clips[0]?.marks).toEqual([]);
    expect(await ofOther.takeInNoted()).toMatchObject({ takenIn: true });
    expect(other.book.openSwing(other.swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
    expect([readdirSync(folder), existsSync(notePath)]).toEqual([[], false]);
  });

  it('noted as one alone, as it was before there could be several, are taken in', async () => {
    const { book, swing, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, folder, notePath } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    const [noted] = JSON.parse(readFileSync(notePath, 'utf8')) as unknown[];
    writeFileSync(notePath, JSON.stringify(noted));
    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
  });

  it('are told of where their file is not to be found, and taken in from where it is', async () => {
    const { book, swing, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, folder, notePath } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    const [name = ''] = readdirSync(folder);
    const moved = join(temporaryFolder(), 'moved.json');
    writeFileSync(moved, readFileSync(join(folder, name)));
    const other = keeperOf(book);
    writeFileSync(other.notePath, readFileSync(notePath, 'utf8').replace(name, 'elsewhere.json'));
    expect(await other.newKeeper().takeInNoted()).toMatchObject({ takenIn: false });
    expect(await newKeeper().takeIn(moved)).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
  });

  it('take a name that is free, belong to one book, and a file that is none is refused', async () => {
    const { book, unwritten } = await bookWithChanges();
    const { keeper, folder, notePath } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    await keeper.keep(folder, unwritten);
    expect(readdirSync(folder)).toHaveLength(2);
    const other = new KeptInBook({ book: newBook(), notePath, writeSettings: async () => undefined });
    expect(await other.takeInNoted()).toBeNull();
    const shopping = join(temporaryFolder(), 'list.json');
    writeFileSync(shopping, '{"milk": 2}');
    await expectRefused(keeper.takeIn(shopping), 'bad-request');
  });

  it('noted before stay noted, though others were kept beside the settings for a while', async () => {
    const { book, swing, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, folder } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    const next = newKeeper();
    await next.rescue({ ...unwritten, settings: USUAL_SETTINGS });
    await next.endRescue();
    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
    expect(readdirSync(folder)).toEqual([]);
  });

  it('are told of where their file is none, or its disk does not answer, and nothing waits for it', async () => {
    const { book, unwritten } = await bookWithChanges();
    const { keeper, folder } = keeperOf(book);
    await keeper.keep(folder, unwritten);
    const [name = ''] = readdirSync(folder);
    const held = await heldFile(join(folder, name), 'held.json');
    await expectRefused(keeper.takeIn(held), 'file-unreadable', /does not answer/);
    const { pipe } = await noFiles();
    await expectRefused(keeper.takeIn(pipe), 'file-unreadable', /is a pipe/);
    expect(book.listEdits(book.listStudents()[0]?.lessons[0]?.lesson.id ?? '').done).toEqual([]);
  });

  it('that nobody has decided about yet come back after an end by force, and leave nothing behind once it is decided', async () => {
    const { book, swing, unwritten } = await bookWithChanges();
    const { keeper, newKeeper, notePath, folder } = keeperOf(book);
    const beside = dirname(notePath);
    await keeper.rescue(unwritten);
    await keeper.endRescue();
    expect(readdirSync(beside)).toEqual([]);
    // Kept elsewhere meanwhile: that is what the next start finds.
    await keeper.rescue(unwritten);
    await keeper.keep(folder, unwritten);
    await keeper.endRescue();
    expect([readdirSync(beside), readdirSync(folder).length]).toEqual([['kept-changes.json'], 1]);
    await newKeeper().takeInNoted();
    book.undoEdit(book.openSwing(swing.id).lesson.id);
    await newKeeper().rescue(unwritten);
    expect(await newKeeper().takeInNoted()).toMatchObject({ takenIn: true });
    expect(book.openSwing(swing.id).clips[0]?.marks).toEqual([ballAt(2)]);
    expect(readdirSync(beside)).toEqual([]);
  });
});
