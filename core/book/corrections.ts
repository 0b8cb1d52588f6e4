import * as v from 'valibot';
import { say } from '../model/say.ts';
import type { Correction, KeptCorrections } from '../model/proposed-points.ts';
import { CHECKPOINTS } from '../model/words.ts';
import { argument } from '../parse/argument.ts';
import { checkpoint } from '../parse/frames.ts';
import { instant } from '../parse/instant.ts';
import { bodyPoint, proposedPlace } from '../parse/marks.ts';
import { finiteNumber, handedness, identifier, view } from '../parse/scalars.ts';
import { requireClip } from './clips.ts';
import type { BookDatabase } from './database.ts';

export interface CorrectionOperations {
  /**
   * Every point of the book that was proposed and that a hand put elsewhere, in sight. What is in the bin does not count, nor
   * what was proposed before the coach began anew, nor what another hand corrected before a swing file brought it in.
   */
  listCorrections(): KeptCorrections;
  /**
   * What was proposed in a clip until `until` teaches nothing, whoever corrected it: it came in from elsewhere. An instant of
   * UTC. @throws AppError `bad-request`, `no-such-record`.
   */
  leaveOutOfLearning(clipId: string, until: string): void;
  /** From now on only what is proposed after `now` counts, an instant of UTC. @throws AppError `bad-request`. */
  forgetCorrections(now: string): void;
}

const row = v.strictObject({
  ...{ body_point: bodyPoint, x: finiteNumber, y: finiteNumber },
  proposed: v.pipe(v.string(), v.parseJson(), proposedPlace),
  ...{ view, handedness, lesson_id: identifier, brought: v.nullable(instant) },
  names: v.pipe(v.string(), v.parseJson(), v.array(checkpoint)),
});
function correctionOf({ body_point, x, y, lesson_id, names, ...rest }: v.InferOutput<typeof row>): Correction {
  return {
    ...{ point: body_point, view: rest.view, handedness: rest.handedness, lessonId: lesson_id },
    checkpoint: CHECKPOINTS.find((each) => names.includes(each)) ?? null,
    ...{ placed: { x, y }, proposed: rest.proposed },
  };
}

const begunRow = v.strictObject({ begun: instant });

export function correctionOperations(database: BookDatabase): CorrectionOperations {
  return {
    listCorrections: () =>
      database.read(() => {
        const begun = database.one(begunRow, 'SELECT begun FROM learning')?.begun ?? '';
        const sql = `SELECT body_point, x, y, proposed, view, handedness, lesson_id, brought, (
            SELECT json_group_array(checkpoint) FROM checkpoint
            WHERE checkpoint.clip_id = clip.id AND checkpoint.frame_index = placed_point.frame_index
          ) AS names FROM placed_point
          JOIN clip ON clip.id = placed_point.clip_id JOIN swing ON swing.id = clip.swing_id
          JOIN lesson ON lesson.id = swing.lesson_id
          WHERE proposed IS NOT NULL AND guess IS NULL AND hidden = 0
          ORDER BY lesson.number, clip.number, frame_index`;
        const all = database.all(row, sql);
        const own = all.filter(({ proposed, brought }) => brought === null || proposed.at > brought);
        const counting = own.filter(({ proposed }) => proposed.at > begun);
        return {
          corrections: counting.map(correctionOf),
          leftOut: own.length - counting.length,
          brought: all.length - own.length,
        };
      }),

    leaveOutOfLearning(clipId, until) {
      const brought = argument(instant, until, say`the instant`);
      database.write(() => {
        requireClip(database, clipId);
        database.run('UPDATE clip SET brought = ? WHERE id = ?', brought, clipId);
      });
    },

    forgetCorrections(now) {
      const begun = argument(instant, now, say`the instant`);
      const sql =
        'INSERT INTO learning (one, begun) VALUES (1, ?) ON CONFLICT (one) DO UPDATE SET begun = excluded.begun';
      database.write(() => database.run(sql, begun));
    },
  };
}
