import { describe, expect, it } from 'vitest';
import { AppError } from '../../../core/model/errors.ts';
import type { FrameMarks } from '../../../core/model/mark.ts';
import type { Requests } from '../../../electron/ipc/contract.ts';
import { isRequestName, parseRequest, REQUEST_NAMES } from '../../../electron/ipc/parse-request.ts';

const ID = '0b9f7c52-3a54-4a0e-9a55-6f6f2f7f1d10';
const OTHER = '7d0f8b1c-0f3e-4c9b-8a36-2f3e5a1b9c77';

const student = { firstName: 'Robin', lastName: 'Marsh', handedness: 'left' } as const;
const lesson = { date: '2026-05-12', club: '7 iron', handedness: 'left', note: '' } as const;
const marks: FrameMarks = {
  frame: { index: 4, pts: 512 },
  points: { ball: { x: 10.25, y: -3, hidden: false } },
  shapes: [
    { kind: 'line', id: ID, a: { x: 0, y: 0 }, b: { x: 5, y: 5 }, role: 'yardstick', lengthMm: 1000 },
    { kind: 'circle', id: OTHER, centre: { x: 1, y: 1 }, radius: 0 },
  ],
};
const stills: Requests['stills/save']['in'] = {
  jobId: 'job',
  swingId: ID,
  thenSwingId: null,
  checkpoints: ['address', 'top'],
  views: ['face-on'],
  layout: 'mail',
  format: 'png',
  width: 1600,
  folder: null,
};

/** One good input for every request: a name without one does not compile. */
const GOOD: { readonly [Name in keyof Requests]: Requests[Name]['in'] } = {
  'program/facts': null,
  'settings/read': null,
  'settings/write': { keys: { fit: ['g'] }, textSize: 150, appearance: 'dark', units: 'imperial', enlargedLines: 80 },
  'program/print': { paper: 'A4' },
  'goals/read': null,
  'goals/write': { name: 'Mine', about: '', wanted: [], tolerances: [], chains: [] },
  'goals/reset': null,
  'goals/export': null,
  'goals/import': null,
  'student/list': null,
  'student/add': student,
  'student/change': { id: ID, ...student, child: true },
  'bin/list': null,
  'bin/move': { kind: 'swing', id: ID },
  'bin/put-back': { id: ID },
  'bin/empty': { id: null },
  'lesson/add': { studentId: ID, ...lesson },
  'lesson/change': { id: ID, ...lesson },
  'swing/add': { lessonId: ID, label: 'Swing 1' },
  'swing/places': { id: ID, view: 'face-on' },
  'swing/open': { id: ID },
  'swing/then': { id: ID },
  'swing/compare': { id: ID, thenId: OTHER },
  'swing/export': { id: ID },
  'swing/choose-file': null,
  'swing/import': { jobId: 'job', path: 'swing.json', studentId: null, files: [{ view: 'face-on', path: 'a.mp4' }] },
  'clip/choose': null,
  'clip/look': { path: 'swing.mp4' },
  'clip/coded-start': { path: 'swing.mp4' },
  'clip/first-picture': { path: 'swing.mp4' },
  'clip/find-swings': { jobId: 'f', path: 'session.mp4' },
  'clip/import': { jobId: 'job', swingId: ID, view: 'face-on', path: 'swing.mp4', stored: 'copied', span: null },
  'clip/keep': { jobId: 'job', id: ID, first: 7 },
  'clip/relink': { jobId: 'job', id: ID, path: 'swing.mp4' },
  'clip/index': { id: ID },
  'clip/show': { id: ID },
  'clip/glance': { id: ID },
  'clip/follow': { jobId: 'p', id: ID, subject: 'hands', frame: 3, at: { x: 1.5, y: 2 }, until: 90 },
  'clip/propose-points': {
    jobId: 'p',
    swingId: ID,
    id: ID,
    frames: [
      { frame: 3, checkpoint: null },
      { frame: 90, checkpoint: 'top' },
    ],
  },
  'clip/propose': { jobId: 'p', id: ID },
  'clip/sound': { id: ID },
  'edit/write': {
    does: 'make',
    edit: { kind: 'view', swingId: ID, clipId: ID, before: 'face-on', after: 'down-the-line' },
  },
  'edit/list': { lessonId: ID },
  'writes/retry': { row: 'edits' },
  'writes/read': null,
  'kept/take-in': { choose: true },
  'window/wound-up': { unfinished: ['Repeat check'] },
  'repeat/add': {
    at: '2026-05-12T09:30:00.000Z',
    namings: [],
    frames: [
      {
        clipId: ID,
        frame: { index: 4, pts: 9 },
        placings: {
          ball: [
            { x: 1, y: 2.5 },
            { x: 2, y: 2 },
          ],
        },
      },
    ],
  },
  'repeat/list': null,
  'repeat/remove': { id: ID },
  'corrections/list': null,
  'corrections/forget': null,
  'stills/save': stills,
  'stills/copy': { jobId: 'job', swingId: ID, thenSwingId: OTHER, view: 'face-on', checkpoint: 'top' },
  'stills/drag': { jobId: 'job', swingId: ID, thenSwingId: null, view: 'face-on', checkpoint: 'top' },
  'drag/start': { path: '/x/top.jpg' },
  'stills/copy-text': { swingId: ID, thenSwingId: null, view: 'face-on', checkpoint: 'top' },
  'stills/show-folder': { folder: 'stills' },
  'frames/connect': null,
  'frames/rest': null,
  'demo/make': { jobId: 'job' },
  'page/earlier': { swingId: ID },
  'library/read': null,
  'library/write': { drills: [], letter: { subject: '', opening: '', closing: '' } },
  'lesson/pdf': { jobId: 'job', swingId: ID, thenSwingId: ID, paper: 'Letter' },
  'lesson/save': { jobId: 'job', swingId: ID, thenSwingId: null, as: 'mail', paper: 'A4' },
  'lesson/open': { path: '/tmp/lesson.eml' },
  'talk/read': { swingId: ID },
  'talk/microphone': { open: true },
  'talk/begin': { swingId: ID, thenId: OTHER, from: 1200, sound: true },
  'talk/append': { sound: new Int16Array(4800), events: [{ at: 5, kind: 'pointer', place: null }], time: null },
  'talk/end': { whole: true },
  'talk/drop-take': { swingId: ID, take: 3 },
  'talk/remove': { swingId: ID },
  'talk/sound': { swingId: ID, take: 0, from: 0, to: 30_000 },
  'talk/save': { jobId: 'job', swingId: ID, shape: 'phone', burnCaptions: false },
  'job/cancel': { jobId: 'job' },
};

/** The sentence it is refused with, in lower case. */
function refused(name: keyof Requests, input: unknown): string {
  try {
    parseRequest(name, input);
  } catch (error) {
    if (error instanceof AppError && error.code === 'bad-request') return error.message.toLowerCase();
    throw error;
  }
  throw new Error(`${name} took ${JSON.stringify(input)}`);
}

describe('every request', () => {
  it('has a schema and a good input in this test', () => {
    expect([...REQUEST_NAMES].sort()).toEqual(Object.keys(GOOD).sort());
  });

  it.each(REQUEST_NAMES)('%s comes through as it was sent', (name) => {
    expect(parseRequest(name, GOOD[name])).toEqual(GOOD[name]);
  });

  it.each(REQUEST_NAMES)(
    '%s is refused as text, number, list, with a part too many, and empty unless it is empty',
    (name) => {
      const good = GOOD[name];
      for (const bad of ['', 0, Number.NaN, [], [good], true, undefined]) expect(refused(name, bad)).not.toBe('');
      if (good === null) expect(refused(name, {})).not.toBe('');
      else {
        expect(refused(name, { ...good, extra: 1 })).toContain('extra');
        expect(refused(name, {})).not.toBe('');
        expect(refused(name, null)).not.toBe('');
        for (const key of Object.keys(good))
          expect(refused(name, { ...good, [key]: Symbol('x') })).toContain(key.toLowerCase());
      }
    },
  );

  it('of an unknown or inherited name is none', () => {
    for (const name of ['toString', '__proto__', 'constructor', '', 'Student/list', 7, null, undefined])
      expect(isRequestName(name)).toBe(false);
  });
});

describe('what a person typed', () => {
  it('loses the spaces around it', () => {
    expect(parseRequest('student/add', { ...student, firstName: '  Robin ' }).firstName).toBe('Robin');
  });

  it('is refused when empty, too long or not in the calendar', () => {
    expect(refused('student/add', { ...student, firstName: '   ' })).toContain('firstname');
    expect(refused('student/add', { ...student, firstName: 'x'.repeat(81) })).toContain('80');
    expect(refused('lesson/add', { ...GOOD['lesson/add'], date: '2026-02-30' })).toContain('2026-05-12');
    expect(refused('lesson/add', { ...GOOD['lesson/add'], date: '12.5.2026' })).toContain('2026-05-12');
  });
});

describe('marks', () => {
  const before = { ...marks, points: {}, shapes: [] };
  const edit = { kind: 'marks', swingId: ID, clipId: ID, before };
  const write = (after: object): object => ({ does: 'make', edit: { ...edit, after } });
  const save = (changed: object): string => refused('edit/write', write({ ...marks, ...changed }));

  it('come through as they were sent', () => {
    expect(parseRequest('edit/write', write(marks))).toEqual(write(marks));
  });

  it('are finite numbers in known shapes', () => {
    expect(save({ points: { ball: { x: Number.NaN, y: 0, hidden: false } } })).not.toBe('');
    expect(save({ points: { ball: { x: Infinity, y: 0, hidden: false } } })).not.toBe('');
    expect(save({ points: { elbow: { x: 1, y: 0, hidden: false } } })).not.toBe('');
    expect(save({ shapes: [{ kind: 'spline', id: ID }] })).not.toBe('');
    expect(save({ shapes: [marks.shapes[0], marks.shapes[0]] })).toContain('id');
    expect(save({ frame: { index: -1, pts: 0 } })).not.toBe('');
    expect(save({ frame: { index: 0.5, pts: 0 } })).not.toBe('');
  });
});

describe('orders', () => {
  it('of stills name each checkpoint and view once, and a width that can be made', () => {
    expect(refused('stills/save', { ...stills, checkpoints: [] })).toContain('checkpoints');
    expect(refused('stills/save', { ...stills, checkpoints: ['top', 'top'] })).toContain('checkpoints');
    expect(refused('stills/save', { ...stills, views: ['face-on', 'face-on'] })).toContain('views');
    for (const width of [639, 4001, 1600.5, '1600'])
      expect(refused('stills/save', { ...stills, width })).toContain('width');
  });

  it('of a part of a clip are whole frames that do not end before they begin', () => {
    const keep = (span: unknown): string => refused('clip/import', { ...GOOD['clip/import'], span });
    for (const span of [{ from: 2, to: 1 }, { from: -1, to: 1 }, { from: 0.5, to: 1 }, { from: 0 }, [0, 1]])
      expect(keep(span)).toContain('span');
    const kept = { ...GOOD['clip/import'], span: { from: 7, to: 7 } };
    expect(parseRequest('clip/import', kept)).toEqual(kept);
  });
});
