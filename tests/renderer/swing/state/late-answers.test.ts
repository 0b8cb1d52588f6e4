import { beforeEach, describe, expect, test } from 'vitest';
import type { KeptEdits } from '../../../../core/model/edit.ts';
import { EMPTY_GOALS } from '../../../../core/measure/goals/goals.ts';
import { AppError } from '../../../../core/model/errors.ts';
import { app, newBench, setApp } from '../../../../renderer/shell/state/app-state.ts';
import { keepMarks, redo, undo } from '../../../../renderer/swing/state/edit-actions.ts';
import { emptyHistory } from '../../../../renderer/swing/state/history.ts';
import { changeGoals, exportGoals, importGoals, ownGoals, resetGoals } from '../../../../renderer/goals/state/goals.ts';
import { tellDone } from '../../../../renderer/shell/state/messages.ts';
import { readPlacing, placing } from '../../../../renderer/repeat/state/placing.ts';
import { readBook } from '../../../../renderer/book/state/book-actions.ts';
import { followSettling } from '../../../../renderer/swing/state/settling.ts';
import {
  chooseThen,
  closeSwing,
  openSwing,
  readSwingAgain,
  stepEdits,
} from '../../../../renderer/swing/state/swing-actions.ts';
import type { Outcome, RequestName } from '../../../../electron/ipc/contract.ts';
import { WRITTEN, controlProgram, turn } from '../../controlled-program.ts';
import { clipOf, indexOf, swingOf } from '../../sample-swing.ts';

/** Answers that come late, out of order, or to what nobody wants any more. */

const NOTHING: KeptEdits = { done: [], undone: [] };
const FULL = new AppError('disk-full', 'The disk is full.');

/** What swings are compared with is another test's matter: here the book remembers nothing of it, and says so at once. */
function comparesNothing(name: RequestName): Promise<Outcome<unknown>> | null {
  if (name === 'swing/then') return Promise.resolve({ ok: true, value: { thenId: null } });
  if (name === 'swing/compare') return Promise.resolve({ ok: true, value: null });
  return null;
}

let program: ReturnType<typeof controlProgram>;

beforeEach(() => {
  program = controlProgram(comparesNothing);
  const fields = { swing: null, then: null, bench: null, indexes: {}, messages: [], students: null, studentId: null };
  setApp({ ...fields, history: emptyHistory(), saving: 'saved' });
});

/** Answers what opening a swing without clips asks for. */
async function answerOpen(name: string): Promise<void> {
  await program.next('swing/open').answer<'swing/open'>(swingOf(name));
  await program.next('edit/list').answer<'edit/list'>(NOTHING);
}

describe('a swing', () => {
  test('that was chosen last stays, though an earlier one is read later', async () => {
    const [first, second] = [openSwing('a'), openSwing('b')];
    await turn();
    const early = program.next('swing/open');
    await answerOpen('b');
    await early.answer<'swing/open'>(swingOf('a'));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    expect([await first, await second, app.get().swing?.swing.id]).toEqual([false, true, 'b']);
  });

  test('does not open once the coach went back to the book', async () => {
    const opened = openSwing('a');
    await turn();
    const closed = closeSwing();
    await turn();
    await answerOpen('a');
    expect([await opened, app.get().swing]).toEqual([false, null]);
    await program.next('frames/rest').answer<'frames/rest'>(null);
    await program.next('program/facts').answer<'program/facts'>({ ...FACTS });
    await program.next('student/list').answer<'student/list'>([]);
    await closed;
  });

  test('that is read again does not come back after the coach left it, nor over another one', async () => {
    setApp({ swing: swingOf('a') });
    const again = readSwingAgain();
    const opened = openSwing('b');
    await turn();
    const late = program.next('swing/open');
    await answerOpen('b');
    await opened;
    await late.answer<'swing/open'>(swingOf('a'));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    await again;
    expect(app.get().swing?.swing.id).toBe('b');
  });

  test('that is chosen while the open one is read again opens; the other is not read any more', async () => {
    setApp({ swing: swingOf('a') });
    const opened = openSwing('b');
    await turn();
    const again = readSwingAgain();
    await turn();
    await answerOpen('b');
    // The book changed meanwhile.
    await answerOpen('b');
    await again;
    expect([await opened, app.get().swing?.swing.id, program.asked]).toEqual([true, 'b', []]);
  });

  test('that cannot be opened leaves the one that is read again', async () => {
    setApp({ swing: swingOf('a') });
    const opened = openSwing('b').catch((error: unknown) => error);
    await turn();
    const again = readSwingAgain();
    await program.next('swing/open').refuse(new AppError('no-such-record', 'That swing is not in the book.'));
    expect(await opened).toBeInstanceOf(AppError);
    await turn();
    await answerOpen('a');
    await again;
    expect(app.get().history).toEqual(NOTHING);
  });

  test('is left for the list though its last change is refused meanwhile', async () => {
    setApp({ swing: swingOf('a', [clipOf('x')]), indexes: { x: indexOf(4) } });
    keepMarks('x', { frame: { index: 1, pts: 1 }, points: { ball: { x: 1, y: 1, hidden: false } }, shapes: [] });
    const closed = closeSwing();
    await program.next('edit/write').refuse(new AppError('no-such-record', 'That clip is not in the book.'));
    await turn();
    expect(app.get().swing).toBeNull();
    await program.next('frames/rest').answer<'frames/rest'>(null);
    await program.next('program/facts').answer<'program/facts'>(FACTS);
    await program.next('student/list').answer<'student/list'>([]);
    await closed;
  });

  test('to compare with is the one chosen last, or none', async () => {
    setApp({ swing: swingOf('now') });
    const first = chooseThen('a');
    await chooseThen(null);
    await turn();
    await program.next('swing/open').answer<'swing/open'>(swingOf('a'));
    await first;
    expect(app.get().then).toBeNull();
    const [one, other] = [chooseThen('a'), chooseThen('b')];
    await turn();
    const early = program.next('swing/open');
    await program.next('swing/open').answer<'swing/open'>(swingOf('b'));
    await early.answer<'swing/open'>(swingOf('a'));
    await Promise.all([one, other]);
    expect(app.get().then?.swing.id).toBe('b');
  });

  test('to compare with is not put beside a swing that was opened meanwhile', async () => {
    setApp({ swing: swingOf('now') });
    const chosen = chooseThen('a');
    const opened = openSwing('b');
    await turn();
    const late = program.next('swing/open');
    await answerOpen('b');
    await opened;
    await late.answer<'swing/open'>(swingOf('a'));
    await chosen;
    expect(app.get().then).toBeNull();
  });
});

describe('a frame table', () => {
  test('that came while another was read stays', async () => {
    const stop = followSettling(() => undefined);
    setApp({ swing: swingOf('a', [clipOf('x'), clipOf('y')]), indexes: { x: indexOf(4), y: indexOf(4) } });
    program.settleClip({ clipId: 'x', changed: false, damaged: 1 });
    program.settleClip({ clipId: 'y', changed: false, damaged: 1 });
    await turn();
    const [ofX, ofY] = [
      { ...indexOf(4), damage: [{ from: 1, to: 1 }] },
      { ...indexOf(4), damage: [{ from: 2, to: 2 }] },
    ];
    await program.next('clip/index').answer<'clip/index'>(ofX);
    await program.next('clip/index').answer<'clip/index'>(ofY);
    expect(app.get().indexes).toEqual({ x: ofX, y: ofY });
    stop();
  });

  test('with new numbers is not undone by one that was read before, nor is what was read with the old ones', async () => {
    const stop = followSettling(() => undefined);
    setApp({ swing: swingOf('a', [clipOf('x')]), indexes: { x: indexOf(4) } });
    // A second clip has come in, and the swing is being read again.
    const again = readSwingAgain();
    await turn();
    const old = program.next('swing/open');
    program.settleClip({ clipId: 'x', changed: true, damaged: 0 });
    await turn();
    const renumbered = swingOf('a', [clipOf('x', 3), clipOf('y', 9)]);
    await program.next('clip/index').answer<'clip/index'>(indexOf(3));
    await program.next('swing/open').answer<'swing/open'>(renumbered);
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    expect(app.get().indexes['x']?.frames).toHaveLength(3);
    await old.answer<'swing/open'>(swingOf('a', [clipOf('x', 4), clipOf('y', 9)]));
    await program.next('clip/index').answer<'clip/index'>(indexOf(9));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    // What was read across the change is read anew.
    await program.next('swing/open').answer<'swing/open'>(renumbered);
    await program.next('clip/index').answer<'clip/index'>(indexOf(9));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    await again;
    expect(app.get().swing?.clips.map(({ frameCount }) => frameCount)).toEqual([3, 9]);
    expect(Object.values(app.get().indexes).map(({ frames }) => frames.length)).toEqual([3, 9]);
    stop();
  });

  test('with new numbers keeps what the coach did meanwhile: the clip that was chosen, the swing beside', async () => {
    const stop = followSettling(() => undefined);
    const indexes = { x: indexOf(4), y: indexOf(4) };
    setApp({ swing: swingOf('a', [clipOf('x'), clipOf('y')]), indexes, bench: newBench('x', 3) });
    program.settleClip({ clipId: 'x', changed: true, damaged: 0 });
    await turn();
    await program.next('clip/index').answer<'clip/index'>(indexOf(3));
    // The coach goes to the other clip, and puts an earlier swing beside this one.
    setApp({ bench: newBench('y', 2) });
    const chosen = chooseThen('b');
    await turn();
    const open = program.next('swing/open');
    await program.next('swing/open').answer<'swing/open'>(swingOf('b'));
    await chosen;
    await open.answer<'swing/open'>(swingOf('a', [clipOf('x', 3), clipOf('y')]));
    await program.next('edit/list').answer<'edit/list'>(NOTHING);
    const state = app.get();
    expect([state.bench?.clipId, state.bench?.index, state.then?.swing.id]).toEqual(['y', 2, 'b']);
    expect(state.swing?.clips[0]?.frameCount).toBe(3);
    stop();
  });
});

const FACTS = {
  version: '1',
  bookFolder: '',
  electron: '',
  place: 'en-GB',
  ffmpeg: null,
  empty: false,
  strays: [],
} as const;

test('the list of students and the checks are those asked for last', async () => {
  const [one, other] = [readBook(), readBook()];
  const [firstFacts, firstList] = [program.next('program/facts'), program.next('student/list')];
  const student = { id: 'new', firstName: 'Bo', lastName: '', handedness: 'left' } as const;
  await program.next('program/facts').answer<'program/facts'>(FACTS);
  await program.next('student/list').answer<'student/list'>([{ student, lessons: [] }]);
  await firstFacts.answer<'program/facts'>(FACTS);
  await firstList.answer<'student/list'>([]);
  await Promise.all([one, other]);
  expect(app.get().students).toHaveLength(1);

  const check = { id: 'check', at: '2026-05-12T09:30:00.000Z', frames: [], namings: [] };
  const reads = [readPlacing(), readPlacing()];
  const early = program.next('repeat/list');
  await program.next('repeat/list').answer<'repeat/list'>([check]);
  await early.answer<'repeat/list'>([]);
  await Promise.all(reads);
  expect(placing.get().checks).toEqual([check]);
});

describe('a step back that the book refuses', () => {
  test('shows the swing and its steps as the book has them', async () => {
    const clip = clipOf('x');
    setApp({ swing: swingOf('a', [clip]), indexes: { x: indexOf(4) } });
    const frame = { index: 1, pts: 1 };
    keepMarks('x', { frame, points: { ball: { x: 1, y: 1, hidden: false } }, shapes: [] });
    await program.next('edit/write').answer<'edit/write'>(WRITTEN);
    expect(undo()).not.toBeNull();
    await program
      .next('edit/write')
      .refuse(new AppError('bad-request', 'In the book the latest change is another one.'));
    const marks = [{ frame, points: { ball: { x: 5, y: 5, hidden: false } }, shapes: [] }];
    const inBook = swingOf('a', [{ ...clip, marks }]);
    const before = { frame, points: {}, shapes: [] };
    const kept: KeptEdits = {
      done: [{ kind: 'marks', swingId: 'a', clipId: 'x', before, after: marks[0] ?? before }],
      undone: [],
    };
    await program.next('swing/open').answer<'swing/open'>(inBook);
    await program.next('edit/list').answer<'edit/list'>(kept);
    expect([app.get().swing, app.get().history]).toEqual([inBook, kept]);
    expect(app.get().messages.at(-1)?.text).toContain('In the book the latest change is another one');
    expect(redo()).toBeNull();
  });

  test('names the edit that the coach saw', async () => {
    setApp({ swing: swingOf('a', [clipOf('x')]), indexes: { x: indexOf(4) } });
    keepMarks('x', { frame: { index: 1, pts: 1 }, points: { ball: { x: 1, y: 1, hidden: false } }, shapes: [] });
    const [edit] = app.get().history.done;
    await program.next('edit/write').answer<'edit/write'>(WRITTEN);
    void stepEdits('undo');
    const asked = program.next('edit/write');
    expect(asked.input).toEqual({ does: 'undo', lessonId: 'lesson of a', edit });
    await asked.answer<'edit/write'>(WRITTEN);
  });
});

describe('the goals', () => {
  test('is not exported where the latest change of it is not saved', async () => {
    changeGoals({ name: 'Mine' });
    const exported = exportGoals().then(
      () => 'exported',
      (error: unknown) => (error instanceof AppError ? error.code : 'other'),
    );
    await program.next('goals/write').refuse(FULL);
    await program.next('writes/retry').refuse(FULL);
    expect(await exported).toBe('cancelled');
    expect(program.asked.map(({ name }) => name)).not.toContain('goals/export');
    const again = exportGoals();
    await turn();
    await program.next('writes/retry').answer<'writes/retry'>(null);
    await program.next('goals/export').answer<'goals/export'>(null);
    await again;
  });

  test('that was changed while the shipped one was asked for is what is shown', async () => {
    const reset = resetGoals();
    await turn();
    const asked = program.next('goals/reset');
    changeGoals({ name: 'Newer' });
    await asked.answer<'goals/reset'>({
      ...{ goals: EMPTY_GOALS, shippedGoals: EMPTY_GOALS, shipped: true, trouble: null },
    });
    await program.next('goals/write').answer<'goals/write'>(WRITTEN);
    await reset;
    expect(ownGoals.get().goals.name).toBe('Newer');
  });

  test('of a file is taken, and a closed dialog takes none', async () => {
    const taken = importGoals();
    await turn();
    const read = { goals: { ...EMPTY_GOALS, name: 'Theirs' }, shippedGoals: EMPTY_GOALS };
    await program.next('goals/import').answer<'goals/import'>({
      path: '/there/theirs.json',
      read: { ...read, shipped: false, trouble: null },
    });
    expect([await taken, ownGoals.get().goals.name]).toEqual([true, 'Theirs']);
    const none = importGoals();
    await turn();
    await program.next('goals/import').answer<'goals/import'>(null);
    expect([await none, ownGoals.get().goals.name]).toEqual([false, 'Theirs']);
  });
});

test('what cannot be saved is told with a way to try again, and counts as saved once it is', async () => {
  setApp({ swing: swingOf('a', [clipOf('x')]), indexes: { x: indexOf(4) } });
  keepMarks('x', { frame: { index: 1, pts: 1 }, points: { ball: { x: 1, y: 1, hidden: false } }, shapes: [] });
  await program.next('edit/write').refuse(FULL);
  tellDone('Wrote the swing to swing.json.');
  const told = app.get().messages.map(({ text }) => text);
  expect([app.get().saving, told]).toEqual(['not saved', [FULL.message, 'Wrote the swing to swing.json.']]);
  const [trouble] = app.get().messages;
  expect(trouble?.nextStep?.label).toBe('Save again');
  trouble?.nextStep?.run();
  const retried = program.next('writes/retry');
  expect(retried.input).toEqual({ row: 'edits' });
  await retried.answer<'writes/retry'>(null);
  expect([app.get().saving, app.get().messages.length]).toEqual(['saved', 1]);
});
