import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Edit } from '../../../core/model/edit.ts';
import type { TalkEdit } from '../../../core/model/talk.ts';
import { expectThrown } from '../../support/trouble.ts';
import { addSample } from './sample.ts';
import { newBook, reopen } from './with-book.ts';

const CUT: TalkEdit = { kind: 'cut', spans: [{ from: 1000, to: 2000 }] };
const RETAKE: TalkEdit = { kind: 'retake', from: 500, take: 1 };
const CAPTION: TalkEdit = { kind: 'caption', at: 10, text: 'Stand tall.' };
const added = (swingId: string, after: TalkEdit): Edit => ({ kind: 'talk', swingId, before: null, after });

describe('what is put right in a talk-through', () => {
  test('is kept in order with its swing, is taken back and made again, also after the book was closed', () => {
    let book = newBook();
    const { lesson, swing } = addSample(book);
    const edits = () => book.openSwing(swing.id).talkEdits ?? [];
    const stages = [edits()];
    for (const edit of [CUT, RETAKE, CAPTION]) {
      book.makeEdit(added(swing.id, edit));
      stages.push(edits());
    }
    expect(edits()).toEqual([CUT, RETAKE, CAPTION]);
    book.close();
    book = reopen(book.folder);
    for (const stage of stages.slice(0, -1).toReversed()) {
      book.undoEdit(lesson.id);
      expect(edits()).toEqual(stage);
    }
    for (const stage of stages.slice(1)) {
      book.redoEdit(lesson.id);
      expect(edits()).toEqual(stage);
    }
  });

  test('is refused where it is not what stands last, or no edit at all', () => {
    const book = newBook();
    const { swing } = addSample(book);
    book.makeEdit(added(swing.id, CUT));
    const off: Edit = { kind: 'talk', swingId: swing.id, before: CAPTION, after: null };
    expectThrown(() => book.makeEdit(off), 'bad-request', /latest/);
    const wrong = { kind: 'cut', spans: [{ from: 2000, to: 1000 }] } as const;
    expectThrown(() => book.makeEdit(added(swing.id, wrong)), 'bad-request', /end after/);
    expect(book.openSwing(swing.id).talkEdits).toEqual([CUT]);
  });

  test('names takes as long as it is in force or can be made again, and no longer', () => {
    const book = newBook();
    const { lesson, swing } = addSample(book);
    book.makeEdit(added(swing.id, RETAKE));
    expect([...book.namedTakes(swing.id)]).toEqual([1]);
    book.undoEdit(lesson.id);
    expect([...book.namedTakes(swing.id)]).toEqual([1]);
    book.makeEdit(added(swing.id, CUT));
    expect([...book.namedTakes(swing.id)]).toEqual([]);
  });

  test('goes for good with the talk-through, of which no file stays; other edits stay', () => {
    const book = newBook();
    const { lesson, swing } = addSample(book);
    const folder = book.talkFolder(swing.id);
    writeFileSync(join(folder, 'take-0000.wav'), 'voice');
    book.makeEdit({ kind: 'pins', swingId: swing.id, before: [], after: [] });
    book.makeEdit(added(swing.id, CUT));
    book.removeTalk(swing.id);
    expect([existsSync(folder), book.openSwing(swing.id).talkEdits]).toEqual([false, undefined]);
    expect(book.listEdits(lesson.id).done.map(({ kind }) => kind)).toEqual(['pins']);
    expectThrown(() => book.removeTalk('11111111-1111-4111-8111-111111111111'), 'no-such-record', /swing/);
  });
});
