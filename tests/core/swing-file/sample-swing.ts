import type { LessonPage } from '../../../core/model/lesson-page.ts';
import type { BookSwing } from '../../../core/model/book.ts';
import type { SwingFile } from '../../../core/model/swing-file.ts';
import { BODY_POINTS } from '../../../core/model/body-points.ts';
import { CHECKPOINTS } from '../../../core/model/words.ts';

const at = (x: number, y: number) => ({ x, y });
const shapeId = (last: number): string => `11111111-1111-4111-8111-${String(last).padStart(12, '0')}`;

/** A page that uses every field. */
export const samplePage = (): LessonPage => ({
  findings: [
    {
      reading: { id: 'hip-line', aspect: 'change', view: 'down-the-line', checkpoint: 'top' },
      words: 'The hips tilt too far.\nSo the club comes from outside.',
    },
    { reading: { id: 'tempo', aspect: 'value', view: 'face-on', checkpoint: 'impact' }, words: '' },
  ],
  keyThoughts: ['Turn, then swing.', 'Stand tall.'],
  drills: [
    {
      id: '33333333-3333-4333-8333-333333333333',
      title: 'Feet together',
      steps: ['Feet side by side.', 'Swing to half.'],
      counts: '3 times 10',
      caution: 'On a flat place.',
      sketch: [
        [
          { x: 0, y: 0.75 },
          { x: 1 / 3, y: 0.1 },
        ],
        [{ x: 1, y: 0 }],
      ],
    },
  ],
  filmNext: { what: 'Three swings with the 7 iron', how: 'Down the line, camera at hand height.' },
});

const PROPOSED = { ...at(1, 2), model: at(0.5, -2), assumed: 12.5, size: 700, at: '2024-02-29T10:00:00.000Z' };
/** By hand with nothing proposed, accepted as assumed and as learnt, and put elsewhere. */
const SAID = [
  {},
  { guess: 12.5, proposed: PROPOSED },
  { guess: 9.5, proposed: { ...PROPOSED, learnt: 23 } },
  { proposed: PROPOSED },
];

/** An invented swing that uses every field and every kind of mark. */
export const sampleSwing = (): SwingFile => ({
  format: 'baybook-swing',
  version: 7,
  student: { firstName: 'Robin', child: true },
  lesson: { date: '2024-02-29', club: '7 iron', handedness: 'left' },
  pins: [{ id: 'hip-line', aspect: 'change', view: 'down-the-line', checkpoint: 'top' }],
  clips: [
    {
      view: 'down-the-line',
      file: 'clips/line.mp4',
      sha256: '0123456789abcdef'.repeat(4),
      ...{ width: 1080, height: 1920, timebase: { num: 1, den: 90000 }, nominalRate: { num: 30000, den: 1001 } },
      captureRate: { framesPerSecond: { num: 240, den: 1 }, confirmed: true },
      checkpoints: Object.fromEntries(
        CHECKPOINTS.map((checkpoint, index) => [checkpoint, { index, pts: index * 3003 - 5, ticks: 3003 }]),
      ),
      marks: [
        {
          frame: { index: 3, pts: 9004 },
          points: Object.fromEntries(
            BODY_POINTS.map((id, n) => [id, { ...at(n / 3, 1 - n * 1e-9), hidden: n % 2 === 0, ...SAID[n % 4] }]),
          ),
          shapes: [
            { id: shapeId(1), kind: 'line', a: at(0, 0), b: at(1, 2), role: null, lengthMm: null },
            { id: shapeId(2), kind: 'line', a: at(0, 0), b: at(0, 9), role: 'plumb', lengthMm: null },
            { id: shapeId(3), kind: 'line', a: at(3, 4), b: at(5, 6), role: 'yardstick', lengthMm: 1143.5 },
            { id: shapeId(4), kind: 'angle', vertex: at(1, 1), a: at(2, 2), b: at(-3, 1e-9) },
            { id: shapeId(5), kind: 'box', x: -10.25, y: 3, width: 0, height: 17.5, role: 'head-box' },
            { id: shapeId(6), kind: 'box', x: 1, y: 3, width: 2, height: 1, role: null },
            { id: shapeId(7), kind: 'circle', centre: at(0.1, 0.2), radius: 0.30000000000000004 },
            {
              id: shapeId(8),
              carried: true,
              kind: 'circle',
              centre: at(0, 0),
              radius: 1,
              rim: [at(1, 0), at(0, 1), at(-1, 0)],
            },
            { id: shapeId(9), kind: 'free', places: [at(0, 0), at(5.5, 1), at(7, -3)] },
            {
              id: shapeId(10),
              kind: 'path',
              subject: 'clubhead',
              places: [
                { ...at(1, 2), pts: 9004 },
                { ...at(3, 2), pts: 12007 },
              ],
            },
            { id: shapeId(11), kind: 'line', a: at(0, 5), b: at(9, 5), role: 'level', lengthMm: null },
            { id: shapeId(20), kind: 'box', x: 2, y: 3.5, width: 7, height: 9.25, role: 'head' },
            {
              ...{ id: shapeId(12), kind: 'line', a: at(3, 4), b: at(5, 6), role: 'yardstick' },
              ...{ lengthMm: 940, lengthUMm: 5, plane: 'ball' },
            },
            { id: shapeId(13), kind: 'circle', centre: at(4, 4), radius: 10, role: 'ball' },
            {
              id: shapeId(14),
              kind: 'ground',
              layout: 'mat',
              places: [
                { ...at(1, 2), target: 0, ball: 0 },
                { ...at(9, 2), target: 1500, ball: 0 },
                { ...at(8, 5), target: 1500, ball: -1200.5 },
                { ...at(2, 5), target: 0, ball: -1200.5 },
              ],
            },
            { id: shapeId(15), kind: 'edge', places: [at(0, 0), at(5, 1), at(9, 0)] },
          ],
        },
        { frame: { index: 40, pts: 123456 }, points: {}, shapes: [] },
      ],
    },
    {
      view: 'face-on',
      file: '/elsewhere/face.mp4',
      sha256: 'f'.repeat(64),
      ...{ width: 1, height: 1, timebase: { num: 1001, den: 30000 }, nominalRate: null, captureRate: null },
      checkpoints: {},
      marks: [],
    },
  ],
  page: samplePage(),
});

/** The same swing as it would stand in a book. */
export function sampleBookSwing(): BookSwing {
  const { student, lesson, clips, pins, page } = sampleSwing();
  const studentId = '22222222-2222-4222-8222-222222222222';
  return {
    student: { id: studentId, ...student, lastName: 'Secret', handedness: 'right' },
    lesson: { id: 'l', studentId, ...lesson, note: 'private note' },
    swing: { id: 'w', lessonId: 'l', label: 'Swing 1' },
    clips: clips.map(({ file, ...clip }) => ({
      ...{
        ...clip,
        id: `id of ${file}`,
        swingId: 'w',
        originalName: 'IMG_0001.MOV',
        bytes: 5,
        stored: 'copied',
        kept: null,
      },
      frameCount: 41,
    })),
    pins,
    page,
  };
}
