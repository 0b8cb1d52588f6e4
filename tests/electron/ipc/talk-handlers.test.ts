import { readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { talkForMail, talkOfBook } from '../../../core/jobs/book-talk.ts';
import { UNWATCHED } from '../../../core/jobs/job-context.ts';
import type { TalkEvent } from '../../../core/model/talk.ts';
import { noteSaved } from '../../../core/talk-file/saved-film.ts';
import { GrantedPaths } from '../../../electron/ipc/granted-paths.ts';
import type { Program } from '../../../electron/ipc/handlers.ts';
import { Recordings } from '../../../electron/ipc/recordings.ts';
import { talkHandlers } from '../../../electron/ipc/talk-handlers.ts';
import { addSample } from '../../core/book/sample.ts';
import { newBook } from '../../core/book/with-book.ts';
import { pane } from '../../core/talk/sample-talk.ts';
import { temporaryFolder } from '../../support/temporary-folder.ts';
import { expectRefused } from '../../support/trouble.ts';

const SHOWN: TalkEvent = { at: 0, kind: 'show', panes: [pane(0)] };
const ONE_SECOND = new Int16Array(48_000).fill(99);

/** A book with a swing, and what answers for talk-throughs: all that a recording needs, on a real disk. */
function recordingProgram() {
  const book = newBook();
  const { swing, lesson } = addSample(book);
  const recordings = new Recordings();
  const program = {
    ...{ book, recordings, granted: new GrantedPaths(), clearTraces: async () => undefined },
    jobs: { run: (_id: string, _name: string, work: (run: typeof UNWATCHED) => unknown) => work(UNWATCHED) },
    microphone: { allow: () => undefined },
  } as unknown as Program;
  const handlers = talkHandlers(program);
  const swingId = swing.id;
  const record = async (from: number | null, end: 'ended' | 'broken off'): Promise<number> => {
    const { take } = await handlers['talk/begin']({ swingId, thenId: null, from, sound: true });
    await handlers['talk/append']({ sound: ONE_SECOND, events: [SHOWN], time: null });
    await handlers['talk/end']({ whole: end === 'ended' });
    return take;
  };
  const retake = (from: number, take: number): void =>
    book.makeEdit({ kind: 'talk', swingId, before: null, after: { kind: 'retake', from, take } });
  const files = (): string[] => readdirSync(book.talkFolder(swingId)).sort();
  return { book, handlers, swingId, lesson, record, retake, files, recordings };
}

describe('a talk-through in the book', () => {
  test('is nothing before it is recorded, and what was recorded after', async () => {
    const { handlers, swingId, record } = recordingProgram();
    expect(await handlers['talk/read']({ swingId })).toBeNull();
    await record(null, 'ended');
    expect(await handlers['talk/read']({ swingId })).toEqual({
      takes: [{ length: 1000, sound: { file: 'take-0000.wav', start: 0 }, events: [SHOWN] }],
      ...{ thenId: null, brokenOff: null, saved: null },
    });
    expect(await handlers['talk/sound']({ swingId, take: 0, from: 900, to: 1200 })).toEqual(
      new Int16Array(4800).fill(99),
    );
  });

  test('that was broken off at its first take is there as far as it got', async () => {
    const { handlers, swingId, record } = recordingProgram();
    await record(null, 'broken off');
    expect(await handlers['talk/read']({ swingId })).toMatchObject({ takes: [{ length: 1000 }], brokenOff: null });
  });

  test('offers a part that was said anew and broken off; it comes in by an edit, or is deleted', async () => {
    const { book, handlers, swingId, record, retake, files } = recordingProgram();
    await record(null, 'ended');
    await record(400, 'broken off');
    expect(await handlers['talk/read']({ swingId })).toMatchObject({ brokenOff: { take: 1, from: 400 } });
    retake(400, 1);
    const talk = await handlers['talk/read']({ swingId });
    expect(talk?.brokenOff).toBeNull();
    expect(talk === null ? null : talkOfBook(book, swingId, talk)?.pieces).toEqual([
      { take: 0, from: 0, to: 400 },
      { take: 1, from: 0, to: 1000 },
    ]);
    await record(700, 'broken off');
    await handlers['talk/drop-take']({ swingId, take: 0 });
    await handlers['talk/drop-take']({ swingId, take: 2 });
    expect(files()).toEqual(['take-0000.jsonl', 'take-0000.wav', 'take-0001.jsonl', 'take-0001.wav']);
    expect(await handlers['talk/read']({ swingId })).toMatchObject({ brokenOff: null });
  });

  test('keeps what was taken back as long as it can be made again, and then deletes it', async () => {
    const { book, handlers, swingId, lesson, record, retake, files } = recordingProgram();
    await record(null, 'ended');
    await record(400, 'ended');
    retake(400, 1);
    book.undoEdit(lesson.id);
    await handlers['talk/read']({ swingId });
    expect(files()).toContain('take-0001.wav');
    book.makeEdit({ kind: 'talk', swingId, before: null, after: { kind: 'caption', at: 0, text: 'Hello.' } });
    expect((await handlers['talk/read']({ swingId }))?.takes).toHaveLength(2);
    expect(files()).toEqual(['take-0000.jsonl', 'take-0000.wav']);
  });

  test('is recorded one at a time, and is not read meanwhile; what the window leaves behind is closed', async () => {
    const { handlers, swingId, recordings } = recordingProgram();
    const begin = async () => handlers['talk/begin']({ swingId, thenId: null, from: null, sound: false });
    await begin();
    await handlers['talk/append']({ sound: null, events: [SHOWN], time: 1500 });
    await expectRefused(begin(), 'bad-request', /being recorded/);
    await expectRefused(
      Promise.resolve().then(() => handlers['talk/read']({ swingId })),
      'bad-request',
      /Stop/,
    );
    await recordings.breakOff();
    await recordings.breakOff();
    await expectRefused(
      Promise.resolve().then(() => handlers['talk/end']({ whole: true })),
      'bad-request',
      /No talk/,
    );
    expect(await handlers['talk/read']({ swingId })).toMatchObject({ takes: [{ length: 1500, sound: null }] });
  });

  test('offers its saved video to a mail, unless it is too large for any, or gone', async () => {
    const { book, handlers, swingId, record } = recordingProgram();
    await record(null, 'ended');
    expect(await talkForMail(book, swingId)).toBeNull();
    const path = join(temporaryFolder(), 'Robin.mp4');
    writeFileSync(path, 'film');
    await noteSaved(book.talkFolder(swingId), path);
    expect((await handlers['talk/read']({ swingId }))?.saved).toMatchObject({ path, bytes: 4 });
    expect(await talkForMail(book, swingId)).toEqual({
      ...{ name: 'Robin.mp4', type: 'video/mp4', bytes: Buffer.from('film') },
    });
    truncateSync(path, 26_000_000);
    expect(await talkForMail(book, swingId)).toBe('too large');
    rmSync(path);
    expect(await talkForMail(book, swingId)).toBeNull();
  });

  test('is gone for good once it is removed, and another one can be recorded', async () => {
    const { handlers, swingId, record } = recordingProgram();
    await record(null, 'ended');
    await handlers['talk/remove']({ swingId });
    expect(await handlers['talk/read']({ swingId })).toBeNull();
    expect(await record(null, 'ended')).toBe(0);
  });
});
