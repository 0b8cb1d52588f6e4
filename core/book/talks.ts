import { isDeepStrictEqual } from 'node:util';
import * as v from 'valibot';
import { say } from '../model/say.ts';
import { AppError } from '../model/errors.ts';
import type { Edit, TalkChange } from '../model/edit.ts';
import type { TalkEdit } from '../model/talk.ts';
import { edit as editSchema } from '../parse/edit.ts';
import { countFromOne } from '../parse/scalars.ts';
import { talkEdits } from '../parse/talk.ts';
import type { BookDatabase } from './database.ts';
import { noSuch } from './no-such.ts';
import type { TalkFolders } from './talk-folders.ts';

export interface TalkOperations {
  /**
   * Where the takes of a swing's talk-through lie; made where it is missing, gone with the swing.
   * @throws AppError `no-such-record`, `disk-full`, `not-writable`.
   */
  talkFolder(swingId: string): string;
  /** Which takes are named by an edit of the talk-through that is in force, or can be taken back or made again. */
  namedTakes(swingId: string): ReadonlySet<number>;
  /**
   * Deletes what was recorded and all that was put right in it, for good: it cannot be taken back.
   * @throws AppError `no-such-record`, `not-writable`.
   */
  removeTalk(swingId: string): void;
}

const contentRow = v.strictObject({ content: v.pipe(v.string(), v.parseJson(), talkEdits) });
const keptRow = v.strictObject({ number: countFromOne, what: v.pipe(v.string(), v.parseJson(), editSchema) });

export function talkOperations(database: BookDatabase, folders: TalkFolders): TalkOperations {
  const kept = (swingId: string) =>
    database.all(keptRow, 'SELECT number, what FROM edit WHERE swing_id = ?', swingId).filter(isOfTalk);
  return {
    talkFolder: (swingId) => folders.take(swingId),

    namedTakes(swingId) {
      const others = kept(swingId).flatMap(({ what }) => [what.before, what.after]);
      const edits = [...talkEditsOf(database, swingId), ...others];
      return new Set(edits.flatMap((edit) => (edit?.kind === 'retake' ? [edit.take] : [])));
    },

    removeTalk(swingId) {
      database.write(() => {
        if (database.one(v.unknown(), 'SELECT id FROM swing WHERE id = ?', swingId) === null)
          throw noSuch('swing', swingId);
        database.run('DELETE FROM talk_edits WHERE swing_id = ?', swingId);
        for (const { number } of kept(swingId)) database.run('DELETE FROM edit WHERE number = ?', number);
      });
      folders.remove(swingId);
    },
  };
}

function isOfTalk(row: { readonly number: number; readonly what: Edit }): row is { number: number; what: TalkChange } {
  return row.what.kind === 'talk';
}

/** What was put right in the talk-through of a swing, in order. */
export function talkEditsOf(database: BookDatabase, swingId: string): readonly TalkEdit[] {
  return database.one(contentRow, 'SELECT content FROM talk_edits WHERE swing_id = ?', swingId)?.content ?? [];
}

/** @throws AppError `bad-request` where the latest edit of the talk-through is not the one that is to be changed. */
export function changeTalk(database: BookDatabase, { swingId, before, after }: TalkChange): void {
  const edits = [...talkEditsOf(database, swingId)];
  if (before !== null && !isDeepStrictEqual(edits.pop(), before))
    throw new AppError('bad-request', say`In the book the latest change of the talk-through is another one.`);
  if (after !== null) edits.push(after);
  database.run('DELETE FROM talk_edits WHERE swing_id = ?', swingId);
  if (edits.length > 0) database.insert('talk_edits', { swing_id: swingId, content: JSON.stringify(edits) });
}
