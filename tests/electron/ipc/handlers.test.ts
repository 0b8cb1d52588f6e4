import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { BinKind } from '../../../core/model/bin.ts';
import { AppError } from '../../../core/model/errors.ts';
import { USUAL_SETTINGS } from '../../../core/model/settings.ts';
import type { Dialogs } from '../../../electron/ipc/dialogs.ts';
import { GrantedPaths } from '../../../electron/ipc/granted-paths.ts';
import { handlersOf, type Program } from '../../../electron/ipc/handlers.ts';
import { findFfmpeg } from '../../../core/video/process/find-ffmpeg.ts';
import { Outgoing } from '../../../electron/ipc/outgoing.ts';
import { Recordings } from '../../../electron/ipc/recordings.ts';
import { Keeping } from '../../../electron/ipc/keeping.ts';
import { RunningJobs } from '../../../electron/ipc/running-jobs.ts';
import { WriteRows } from '../../../electron/ipc/unwritten.ts';
import { addSample, addSampleClip, sampleFrame } from '../../core/book/sample.ts';
import { newBook } from '../../core/book/with-book.ts';
import { SHIPPED_GOALS } from '../../../core/parse/shipped-goals.ts';
import { sampleGoals } from '../../core/goals-file/sample-goals.ts';
import { makeCodedClip } from '../../support/coded-clip.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';

const NOBODY: Dialogs = {
  chooseClip: async () => null,
  chooseLessonFile: async () => null,
  openFile: async () => undefined,
  chooseStillsFolder: async () => null,
  chooseSwingFile: async () => null,
  chooseSwingToRead: async () => null,
  chooseGoalsFile: async () => null,
  chooseGoalsToRead: async () => null,
  chooseKeptChanges: async () => null,
  chooseKeepingFolder: async () => null,
  showFolder: async () => undefined,
};

/** A program on a real book; `closed` lists which open clips were closed, '*' for all, and when traces were cleared. */
function newProgram(dialogs: Partial<Dialogs> = {}, changed: Partial<Program> = {}) {
  const closed: string[] = [];
  const book = newBook();
  const findFfmpeg = async () => ({ path: 'ffmpeg', version: '5.1', from: 'system', warning: null }) as const;
  const program: Program = {
    version: '1.2.3',
    electron: '33.2.1',
    place: 'en-GB',
    book,
    findFfmpeg,
    keeping: new Keeping({ book, findFfmpeg, onKept: async () => undefined }),
    jobs: new RunningJobs(() => undefined),
    granted: new GrantedPaths(),
    dialogs: { ...NOBODY, ...dialogs },
    openClips: { close: async (id) => void closed.push(id), closeAll: async () => void closed.push('*') },
    clearTraces: async () => void closed.push('traces'),
    clipboard: { writePicture: async () => undefined, writeText: async () => undefined },
    printer: { print: async () => false },
    outgoing: new Outgoing(join(temporaryFolder(), 'going-out')),
    dragFile: (path) => void closed.push(path),
    recordings: new Recordings(),
    microphone: { allow: (open) => void closed.push(open ? 'microphone on' : 'microphone off') },
    sounds: { sound: async () => null },
    settings: {
      read: async () => ({ settings: USUAL_SETTINGS, trouble: null }),
    },
    rows: new WriteRows({
      edit: (write) => book.writeEdit(write),
      goals: (goals) => book.writeGoals(goals),
      settings: async () => undefined,
    }),
    leaving: {
      pageOpened: () => ({ waiting: { edits: 0, goals: 0, settings: 0 }, kept: null }),
      woundUp: () => undefined,
      takeInKept: async () => null,
    },
    frames: {
      show: async () => undefined,
      look: async () => undefined,
      rest: () => undefined,
      connect: () => undefined,
    },
    ...changed,
  };
  return { program, book: program.book, handlers: handlersOf(program), closed };
}

describe('the facts of the program', () => {
  it('tell that there is no ffmpeg instead of failing', async () => {
    const missing = new AppError('ffmpeg-missing', 'No ffmpeg was found.');
    const { handlers } = newProgram({}, { findFfmpeg: () => Promise.reject(missing) });
    expect(await handlers['program/facts'](null)).toMatchObject({ version: '1.2.3', ffmpeg: null, empty: true });
  });

  it('tell whether the book is empty', async () => {
    const { handlers, book } = newProgram();
    addSample(book);
    expect(await handlers['program/facts'](null)).toMatchObject({ empty: false, bookFolder: book.folder });
  });
});

describe('what makes the first picture of a chosen file', () => {
  it('is read when it is chosen, and anew where the file was changed since', async () => {
    const path = join(temporaryFolder(), 'swing.mp4');
    const ffmpeg = await findFfmpeg();
    const clip = ['-c:v', 'libx264', '-pix_fmt', 'yuv420p'];
    makeCodedClip(ffmpeg, 4, '30', [...clip, '-crf', '20', path]);
    const { handlers } = newProgram({ chooseClip: async () => path });
    await handlers['clip/choose'](null);
    const first = await handlers['clip/coded-start']({ path });
    // Chosen for something else, so that nobody asks.
    await handlers['clip/choose'](null);
    rmSync(path);
    makeCodedClip(ffmpeg, 4, '30', [...clip, '-crf', '45', path]);
    const second = await handlers['clip/coded-start']({ path });
    expect(first?.data.length).toBeGreaterThan(0);
    expect(second?.data.length).toBeGreaterThan(0);
    expect(second?.data.length).toBeLessThan(first?.data.length ?? 0);
  });
});

describe('a repeat check', () => {
  it('is kept, listed and removed', async () => {
    const { handlers, book } = newProgram();
    const clip = await addSampleClip(book, addSample(book).swing.id);
    const ball = [
      { x: 1, y: 2 },
      { x: 2, y: 2 },
    ];
    const frames = [{ clipId: clip.id, frame: sampleFrame(2), placings: { ball } }];
    const kept = await handlers['repeat/add']({ at: '2026-05-12T09:30:00.000Z', frames, namings: [] });
    expect(kept.frames).toMatchObject(frames);
    expect(await handlers['repeat/list'](null)).toEqual([kept]);
    expect(await handlers['repeat/remove']({ id: kept.id })).toBeNull();
    expect(await handlers['repeat/list'](null)).toEqual([]);
  });
});

describe('of a child’s lesson', () => {
  it('nothing is saved, copied or recorded without a confirmed consent, whatever asks for it', async () => {
    const { handlers, book } = newProgram({}, { findFfmpeg: () => Promise.reject(new Error('begun')) });
    const { student, swing, lesson } = addSample(book);
    const { id, ...fields } = student;
    const [jobId, swingId, thenSwingId] = ['job', swing.id, null];
    const still = { jobId, swingId, thenSwingId, view: 'face-on', checkpoint: 'top' } as const;
    const stills = { layout: 'phone', format: 'jpeg', width: 1080, folder: null } as const;
    const roads: readonly (() => unknown)[] = [
      () => handlers['stills/save']({ ...still, ...stills, views: ['face-on'], checkpoints: ['top'] }),
      () => handlers['stills/copy'](still),
      () => handlers['stills/copy-text'](still),
      () => handlers['stills/drag'](still),
      () => handlers['swing/export']({ id: swingId }),
      () => handlers['lesson/save']({ jobId, swingId, thenSwingId, as: 'pdf', paper: 'A4' }),
      () => handlers['lesson/save']({ jobId, swingId, thenSwingId, as: 'csv', paper: 'A4' }),
      () => handlers['talk/begin']({ swingId, thenId: null, from: null, sound: false }),
      () => handlers['talk/save']({ jobId, swingId, shape: 'wide', burnCaptions: false }),
    ];
    const consentMissing = async (): Promise<number> => {
      const said = await Promise.all(roads.map(async (go) => Promise.resolve().then(go).catch(String)));
      await Promise.resolve(handlers['talk/end']({ whole: false })).catch(() => undefined);
      return said.filter((each) => /a parent or guardian must agree/.test(String(each))).length;
    };
    expect(await consentMissing()).toBe(0);
    book.changeStudent(id, { ...fields, child: true });
    expect(await consentMissing()).toBe(roads.length);
    book.makeEdit({ kind: 'consent', swingId, before: false, after: true });
    expect(await consentMissing()).toBe(0);
    book.undoEdit(lesson.id);
    expect(await consentMissing()).toBe(roads.length);
  });
});

describe('a closed dialog', () => {
  it('is an answer of null, and nothing happens', async () => {
    const { handlers, book } = newProgram();
    const { swing } = addSample(book);
    expect(await handlers['clip/choose'](null)).toBeNull();
    expect(await handlers['swing/export']({ id: swing.id })).toBeNull();
    const order = { jobId: 'a', swingId: swing.id, thenSwingId: null, folder: null, width: 1600 } as const;
    expect(
      await handlers['stills/save']({
        ...order,
        checkpoints: ['top'],
        views: ['face-on'],
        layout: 'mail',
        format: 'png',
      }),
    ).toBeNull();
  });
});

describe('paths from the window', () => {
  it('are refused for import, relink, stills and showing, unless the coach pointed at them', async () => {
    const { handlers, book, program } = newProgram();
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const run = async (work: () => unknown): Promise<unknown> => work();
    const refused = [
      () =>
        handlers['clip/import']({
          ...{ jobId: 'a', swingId: swing.id, view: 'down-the-line', path: '/etc/passwd', stored: 'copied' },
          span: null,
        }),
      () => handlers['clip/look']({ path: '/etc/passwd' }),
      () => handlers['clip/relink']({ jobId: 'a', id: clip.id, path: '/etc/passwd' }),
      () =>
        handlers['stills/save']({
          ...{ jobId: 'a', swingId: swing.id, thenSwingId: null, folder: '/etc', width: 1600, format: 'png' },
          ...{ checkpoints: ['top'], views: ['face-on'], layout: 'mail' },
        }),
      () => handlers['stills/show-folder']({ folder: '/etc' }),
    ];
    for (const work of refused) await expectRefused(run(work), 'bad-request');
    const folder = temporaryFolder();
    program.granted.grantFolder(folder);
    expect(await handlers['stills/show-folder']({ folder })).toBeNull();
  });
});

describe('what a still says', () => {
  it('goes to the clipboard as text, without a picture being read; a frame without a name is told', async () => {
    const copied: string[] = [];
    const clipboard = {
      writePicture: async () => undefined,
      writeText: async (text: string) => void copied.push(text),
    };
    const { handlers, book } = newProgram({}, { clipboard });
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const still = { swingId: swing.id, thenSwingId: null, view: clip.view, checkpoint: 'top' } as const;
    const copy = async (): Promise<unknown> => handlers['stills/copy-text'](still);
    await expectRefused(copy(), 'bad-request', /no frame named "Top"/);
    expect(copied).toEqual([]);
    book.setCheckpoint(clip.id, 'top', sampleFrame(2));
    expect(await copy()).toBeNull();
    expect(copied).toHaveLength(1);
    expect(copied[0]).toMatch(/^Top, .*\.\nPicture: \S+ at top, /);
  });
});

describe('an exported swing', () => {
  it('is a swing file where the coach said, naming a clip of the book by its path', async () => {
    const path = join(temporaryFolder(), 'swing.json');
    const asked: string[] = [];
    const { handlers, book } = newProgram({ chooseSwingFile: async (name) => (asked.push(name), path) });
    const { swing } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    book.setCheckpoint(clip.id, 'top', sampleFrame(2));
    expect(await handlers['swing/export']({ id: swing.id })).toEqual({ path });
    expect(asked).toEqual(['Robin 2026-05-12 Swing 1.json']);
    const content: unknown = JSON.parse(readFileSync(path, 'utf8'));
    expect(content).toMatchObject({ format: 'baybook-swing', clips: [{ checkpoints: { top: sampleFrame(2) } }] });
    expect(JSON.stringify(content)).not.toContain('Example');
  });
});

describe('a chosen swing file', () => {
  /** Exported by a program of its own, whose book has one clip. */
  async function exported(): Promise<{ readonly path: string; readonly content: Record<string, unknown> }> {
    const path = join(temporaryFolder(), 'robin.json');
    const { handlers, book } = newProgram({ chooseSwingFile: async () => path });
    const { swing } = addSample(book);
    await addSampleClip(book, swing.id);
    await handlers['swing/export']({ id: swing.id });
    return { path, content: JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown> };
  }
  const readAs = async (path: string, clip: string) => {
    const { content } = await exported();
    const [first] = content['clips'] as Record<string, unknown>[];
    writeFileSync(path, JSON.stringify({ ...content, clips: [{ ...first, file: clip }] }));
    return newProgram({ chooseSwingToRead: async () => path }).handlers['swing/choose-file'](null);
  };

  it('says what it holds and where its clip is', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'beside.mp4'), 'clip');
    const chosen = await readAs(join(folder, 'swing.json'), 'beside.mp4');
    expect(chosen).toMatchObject({ firstName: 'Robin', date: '2026-05-12', club: '7 iron', handedness: 'right' });
    expect(chosen?.clips).toEqual([{ view: 'face-on', name: 'beside.mp4', path: join(folder, 'beside.mp4') }]);
  });

  it('says that its clip is not there, is no file, or lies on another computer, where nobody looks', async () => {
    const folder = temporaryFolder();
    for (const clip of ['clips/gone.mp4', '.', '\\\\studio\\clips\\gone.mp4', '//studio/clips/gone.mp4']) {
      const chosen = await readAs(join(folder, 'swing.json'), clip);
      expect([clip, chosen?.clips[0]?.path]).toEqual([clip, null]);
    }
  });

  it('is read as one sentence where it is none, and brings in only what the coach pointed at', async () => {
    const path = join(temporaryFolder(), 'notes.json');
    writeFileSync(path, '{"format": "something else"}');
    const { handlers, book } = newProgram({ chooseSwingToRead: async () => path });
    const run = async (work: () => unknown): Promise<unknown> => work();
    await expectRefused(
      run(() => handlers['swing/choose-file'](null)),
      'swing-file-invalid',
      /not a swing file/,
    );
    const order = { jobId: 'a', path, studentId: null, files: [{ view: 'face-on', path: '/etc/passwd' }] } as const;
    await expectRefused(
      run(() => handlers['swing/import'](order)),
      'bad-request',
      /in the file dialog/,
    );
    expect(book.listStudents()).toEqual([]);
  });
});

describe('a removal', () => {
  it('lets go of the clips that are looked at before their files go', async () => {
    const { handlers, book, closed } = newProgram();
    const { swing, lesson, student } = addSample(book);
    const clip = await addSampleClip(book, swing.id);
    const entries = [];
    for (const [kind, { id }] of Object.entries({ clip, swing, lesson, student }))
      entries.push(await handlers['bin/move']({ kind: kind as BinKind, id }));
    expect(closed).toEqual(['*', '*', '*', '*']);
    expect(book.listStudents()).toEqual([]);
    expect(await handlers['bin/list'](null)).toEqual(entries.map((entry) => ({ ...entry, daysLeft: 30 })).reverse());
    await handlers['bin/put-back']({ id: entries[3]?.id ?? '' });
    expect(book.listStudents()).toHaveLength(1);
    await handlers['bin/empty']({ id: entries[0]?.id ?? '' });
    await handlers['bin/empty']({ id: null });
    expect(closed.slice(4)).toEqual(['traces', 'traces']);
    expect(await handlers['bin/list'](null)).toEqual([]);
    expect(readdirSync(book.media.path)).toEqual([]);
  });
});

describe('the goals', () => {
  it('is exported to where the coach says and imported from there, by the name it has', async () => {
    const path = join(temporaryFolder(), 'mine.json');
    const asked: string[] = [];
    const { handlers, book } = newProgram({
      chooseGoalsFile: async (name) => (asked.push(name), path),
      chooseGoalsToRead: async () => path,
    });
    await handlers['goals/write'](sampleGoals());
    expect(await handlers['goals/export'](null)).toEqual({ path });
    expect(asked).toEqual(['My own.json']);
    expect((await handlers['goals/reset'](null)).shipped).toBe(true);
    const read = { goals: sampleGoals(), shippedGoals: SHIPPED_GOALS, shipped: false, trouble: null };
    expect(await handlers['goals/import'](null)).toEqual({ path, read });
    expect(book.readGoals()).toEqual(read);
  });

  it('stays as it is where the dialog is closed or the file is none', async () => {
    const path = join(temporaryFolder(), 'wrong.json');
    const { handlers, book } = newProgram({ chooseGoalsToRead: async () => path });
    writeFileSync(path, '{"format":"baybook-pattern"}');
    await expectRefused(Promise.resolve(handlers['goals/import'](null)), 'goals-file-invalid', /version is missing/);
    expect(await newProgram().handlers['goals/import'](null)).toBeNull();
    expect(await newProgram().handlers['goals/export'](null)).toBeNull();
    expect(book.readGoals().shipped).toBe(true);
  });
});
