import * as v from 'valibot';
import type { Edit, EditWrite } from '../model/edit.ts';
import { captureRate, checkpoint, checkpointFrame } from './frames.ts';
import { lessonPage } from './lesson-page.ts';
import { frameMarks } from './marks.ts';
import { pinnedReadings } from './reading-key.ts';
import { identifier, view } from './scalars.ts';
import { talkEdit } from './talk.ts';

const ofSwing = { swingId: identifier };
const yesOrNo = v.boolean('must be yes or no');
const ofClip = { ...ofSwing, clipId: identifier };

export const edit: v.GenericSchema<unknown, Edit> = v.variant('kind', [
  v.pipe(
    v.strictObject({ ...ofClip, kind: v.literal('marks'), before: frameMarks, after: frameMarks }),
    v.check(
      ({ before, after }) => before.frame.index === after.frame.index && before.frame.pts === after.frame.pts,
      'must be about one frame',
    ),
  ),
  v.strictObject({
    ...ofClip,
    kind: v.literal('checkpoint'),
    checkpoint,
    before: v.nullable(checkpointFrame),
    after: v.nullable(checkpointFrame),
  }),
  v.strictObject({
    ...ofClip,
    kind: v.literal('capture-rate'),
    before: v.nullable(captureRate),
    after: v.nullable(captureRate),
  }),
  v.strictObject({ ...ofClip, kind: v.literal('view'), before: view, after: view }),
  v.strictObject({ ...ofSwing, kind: v.literal('pins'), before: pinnedReadings, after: pinnedReadings }),
  v.strictObject({ ...ofSwing, kind: v.literal('page'), before: lessonPage, after: lessonPage }),
  v.strictObject({
    ...{ ...ofSwing, kind: v.literal('talk') },
    ...{ before: v.nullable(talkEdit), after: v.nullable(talkEdit) },
  }),
  v.strictObject({ ...ofSwing, kind: v.literal('consent'), before: yesOrNo, after: yesOrNo }),
]);

export const editWrite: v.GenericSchema<unknown, EditWrite> = v.variant('does', [
  v.strictObject({ does: v.literal('make'), edit }),
  v.strictObject({ does: v.literal('continue'), edit }),
  v.strictObject({ does: v.picklist(['undo', 'redo']), lessonId: identifier, edit }),
]);
