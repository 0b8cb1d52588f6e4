import * as v from 'valibot';
import { say } from '../../core/model/say.ts';
import { BIN_KINDS } from '../../core/model/bin.ts';
import { PATH_SUBJECTS } from '../../core/model/mark.ts';
import { argument } from '../../core/parse/argument.ts';
import { editWrite } from '../../core/parse/edit.ts';
import { checkpoint } from '../../core/parse/frames.ts';
import { coachLibrary } from '../../core/parse/lesson-page.ts';
import { newRepeatCheck } from '../../core/parse/repeat-check.ts';
import {
  countFromZero,
  day,
  finiteNumber,
  handedness,
  identifier,
  note,
  typedName,
  typedNameOrEmpty,
  view,
} from '../../core/parse/scalars.ts';
import { goals } from '../../core/parse/goals.ts';
import { TALK_LIMITS } from '../../core/model/talk.ts';
import { talkEvent } from '../../core/parse/talk.ts';
import { STILL_FORMATS, STILL_LAYOUTS, STILL_WIDTH } from '../../core/report/still-file.ts';
import type { RequestName, Requests } from './contract.ts';
import { settings } from '../../core/parse/settings.ts';

/**
 * Turns what arrives from the window into what contract.ts promises, or refuses it with a `bad-request` AppError. One
 * schema a request name; that each yields the contract's type is checked by the compiler (`SCHEMAS` below).
 */

const nothing = v.null('takes no input');
const byId = v.strictObject({ id: identifier });
const byLesson = v.strictObject({ lessonId: identifier });
/** Made by the window; names a job for as long as it runs. */
const jobId = v.pipe(v.string('must be text'), v.minLength(1, 'must not be empty'), v.maxLength(80, 'is too long'));
/** The longest that any of the systems takes. That the coach chose this path is the handler's to check. */
const path = v.pipe(v.string('must be text'), v.minLength(1, 'must not be empty'), v.maxLength(32_767, 'is too long'));

const newStudent = {
  ...{ firstName: typedName, lastName: typedNameOrEmpty, handedness },
  child: v.exactOptional(v.literal(true)),
};
const lessonFacts = { date: day, club: typedName, handedness, note };

const unique = (list: readonly string[]): boolean => new Set(list).size === list.length;

const stillsOrder = v.strictObject({
  jobId,
  swingId: identifier,
  thenSwingId: v.nullable(identifier),
  checkpoints: v.pipe(
    v.array(checkpoint),
    v.minLength(1, 'must name at least one'),
    v.check((list) => unique(list), 'must name each once'),
  ),
  views: v.pipe(
    v.array(view),
    v.minLength(1, 'must name at least one'),
    v.check((list) => unique(list), 'must name each once'),
  ),
  layout: v.picklist(STILL_LAYOUTS),
  format: v.picklist(STILL_FORMATS),
  width: v.pipe(
    v.number('must be a number'),
    v.integer('must be a whole number of pixels'),
    v.minValue(STILL_WIDTH.narrowest, `must be ${STILL_WIDTH.narrowest} pixels or more`),
    v.maxValue(STILL_WIDTH.widest, `must be ${STILL_WIDTH.widest} pixels or fewer`),
  ),
  folder: v.nullable(path),
});

const stillPlace = { swingId: identifier, thenSwingId: v.nullable(identifier), view, checkpoint };

const paper = v.picklist(['A4', 'Letter']);
const lessonOrder = { jobId, swingId: identifier, thenSwingId: v.nullable(identifier), paper };

const importOrder = v.strictObject({
  jobId,
  swingId: identifier,
  asNewSwing: v.exactOptional(v.boolean()),
  view,
  path,
  stored: v.picklist(['copied', 'linked']),
  span: v.nullable(
    v.pipe(
      v.strictObject({ from: countFromZero, to: countFromZero }),
      v.check(({ from, to }) => from <= to, 'must not end before it begins'),
    ),
  ),
});

/** The longest sound that is asked for or handed over at once, ms. */
const LONGEST_SOUND = 30_000;
const talkTime = v.pipe(countFromZero, v.maxValue(TALK_LIMITS.takeLength, 'must be at most four hours'));
const sound = v.pipe(
  v.instance(Int16Array, 'must be samples'),
  v.check((samples) => samples.length <= LONGEST_SOUND * 48, 'must be shorter'),
);
const bySwing = v.strictObject({ swingId: identifier });

const SCHEMAS: { readonly [Name in RequestName]: v.GenericSchema<unknown, Requests[Name]['in']> } = {
  'program/facts': nothing,
  'program/print': v.strictObject({ paper: v.nullable(paper) }),
  'settings/read': nothing,
  'settings/write': settings,
  'goals/read': nothing,
  'goals/write': goals,
  'goals/reset': nothing,
  'goals/export': nothing,
  'goals/import': nothing,
  'student/list': nothing,
  'student/add': v.strictObject(newStudent),
  'student/change': v.strictObject({ id: identifier, ...newStudent }),
  'bin/list': nothing,
  'bin/move': v.strictObject({ kind: v.picklist(BIN_KINDS), id: identifier }),
  'bin/put-back': byId,
  'bin/empty': v.strictObject({ id: v.nullable(identifier) }),
  'lesson/add': v.strictObject({ studentId: identifier, ...lessonFacts }),
  'lesson/change': v.strictObject({ id: identifier, ...lessonFacts }),
  'swing/add': v.strictObject({ lessonId: identifier, label: typedName }),
  'swing/open': byId,
  'swing/places': v.strictObject({ id: identifier, view }),
  'swing/then': byId,
  'swing/compare': v.strictObject({ id: identifier, thenId: v.nullable(identifier) }),
  'swing/export': byId,
  'swing/choose-file': nothing,
  'swing/import': v.strictObject({
    jobId,
    path,
    studentId: v.nullable(identifier),
    files: v.pipe(
      v.array(v.strictObject({ view, path })),
      v.check((list) => unique(list.map((file) => file.view)), 'must name each view once'),
    ),
  }),
  'clip/choose': nothing,
  'clip/look': v.strictObject({ path }),
  'clip/coded-start': v.strictObject({ path }),
  'clip/first-picture': v.strictObject({ path }),
  'clip/find-swings': v.strictObject({ jobId, path }),
  'clip/import': importOrder,
  'clip/keep': v.strictObject({ jobId, id: identifier, first: countFromZero }),
  'clip/relink': v.strictObject({ jobId, id: identifier, path }),
  'clip/propose': v.strictObject({ jobId, id: identifier }),
  'clip/propose-points': v.strictObject({
    jobId,
    swingId: identifier,
    id: identifier,
    frames: v.pipe(
      v.array(v.strictObject({ frame: countFromZero, checkpoint: v.nullable(checkpoint) })),
      v.minLength(1, 'must name a frame'),
      v.maxLength(8, 'are too many at once'),
    ),
  }),
  'clip/follow': v.strictObject({
    ...{ jobId, id: identifier, frame: countFromZero, until: countFromZero },
    subject: v.picklist(PATH_SUBJECTS),
    at: v.strictObject({ x: finiteNumber, y: finiteNumber }),
  }),
  'clip/index': byId,
  'clip/show': byId,
  'clip/glance': byId,
  'clip/sound': byId,
  'edit/write': editWrite,
  'edit/list': byLesson,
  'repeat/add': newRepeatCheck,
  'repeat/list': nothing,
  'repeat/remove': byId,
  'corrections/list': nothing,
  'corrections/forget': nothing,
  'writes/retry': v.strictObject({ row: v.picklist(['edits', 'goals', 'settings']) }),
  'writes/read': nothing,
  'kept/take-in': v.strictObject({ choose: v.boolean('must be yes or no') }),
  'window/wound-up': v.strictObject({
    unfinished: v.pipe(v.array(v.pipe(v.string(), v.maxLength(200))), v.maxLength(20)),
  }),
  'stills/save': stillsOrder,
  'stills/copy': v.strictObject({ jobId, ...stillPlace }),
  'stills/drag': v.strictObject({ jobId, ...stillPlace }),
  'drag/start': v.strictObject({ path }),
  'stills/copy-text': v.strictObject(stillPlace),
  'page/earlier': bySwing,
  'library/read': nothing,
  'library/write': coachLibrary,
  'lesson/save': v.strictObject({ ...lessonOrder, as: v.picklist(['mail', 'pdf', 'all', 'csv', 'json']) }),
  'lesson/pdf': v.strictObject(lessonOrder),
  'lesson/open': v.strictObject({ path }),
  'talk/read': bySwing,
  'talk/microphone': v.strictObject({ open: v.boolean('must be yes or no') }),
  'talk/begin': v.strictObject({
    ...{ swingId: identifier, thenId: v.nullable(identifier), from: v.nullable(talkTime) },
    sound: v.boolean('must be yes or no'),
  }),
  'talk/append': v.strictObject({
    ...{ sound: v.nullable(sound), time: v.nullable(talkTime) },
    events: v.pipe(v.array(talkEvent), v.maxLength(10_000, 'must be fewer')),
  }),
  'talk/end': v.strictObject({ whole: v.boolean('must be yes or no') }),
  'talk/drop-take': v.strictObject({ swingId: identifier, take: countFromZero }),
  'talk/remove': bySwing,
  'talk/sound': v.pipe(
    v.strictObject({ swingId: identifier, take: countFromZero, from: talkTime, to: talkTime }),
    v.check(({ from, to }) => from <= to && to - from <= LONGEST_SOUND, 'must be at most half a minute'),
  ),
  'talk/save': v.strictObject({
    ...{ jobId, swingId: identifier, burnCaptions: v.boolean('must be yes or no') },
    shape: v.picklist(['wide', 'phone']),
  }),
  'stills/show-folder': v.strictObject({ folder: path }),
  'frames/connect': nothing,
  'frames/rest': nothing,
  'demo/make': v.strictObject({ jobId }),
  'job/cancel': v.strictObject({ jobId }),
};

export function isRequestName(name: unknown): name is RequestName {
  return typeof name === 'string' && Object.hasOwn(SCHEMAS, name);
}

/** What `input` says, as the contract has it. @throws AppError `bad-request`: the first wrong field and its rule. */
export function parseRequest<Name extends RequestName>(requestName: Name, input: unknown): Requests[Name]['in'] {
  const schema: v.GenericSchema<unknown, Requests[Name]['in']> = SCHEMAS[requestName];
  return argument(schema, input, say`this request`);
}

/** Every request name, for tests that must miss none. */
export const REQUEST_NAMES: readonly RequestName[] = Object.keys(SCHEMAS).filter(isRequestName);
