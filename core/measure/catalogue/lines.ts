import { say } from '../../model/say.ts';
import { interiorAngle, wrapAngle } from '../../geometry/angle.ts';
import { inclineFromHorizontal, inclineFromVertical, tiltFromHorizontal } from '../../geometry/line.ts';
import { midpoint } from '../../geometry/point.ts';
import { CHECKPOINTS } from '../../model/words.ts';
import {
  BOTH_VIEWS,
  DOWN_THE_LINE,
  FACE_ON,
  TOWARD_BALL,
  TOWARD_TARGET,
  VALUE,
  VALUE_AND_CHANGE,
  plausibly,
} from './entry.ts';
import type { PlacedEntry, Places, Withdrawal } from './entry.ts';
import { angle, bent, crossing, leaning, levelled, line, withAddress } from './sketch.ts';
import { directionOf, from, gap, middle } from './sketch-places.ts';

const ANGLE = {
  quantity: 'angle',
  headBox: false,
  edges: false,
  ground: false,
  plane: 'player',
  reference: null,
  range: null,
  isSize: false,
} as const;

const QUARTER_TURN = Math.PI / 2;
/** Degrees: the shoulders turn square to the spine (common practice, no published source). */
const SQUARE_TO_SPINE = 90;

/** A knee bends forward, which face on is toward the camera. */
const KNEE_FACE_ON: Withdrawal = {
  views: FACE_ON,
  checkpoints: CHECKPOINTS,
  why: say`Face on a knee bends toward the camera: one of 156° looked like 178°, and a change of 9° like one of 3°. Read it down the line.`,
};

/** Off by more than 5 degrees against a body in space, because the line is seen nearly end on. */
const SHOULDERS_END_ON: readonly Withdrawal[] = [
  {
    views: FACE_ON,
    checkpoints: ['lead-arm-level', 'top', 'finish'],
    why: say`Face on the shoulders are seen nearly end on here: a tilt of 21° looked like 84° at top. Read them down the line.`,
  },
  {
    views: DOWN_THE_LINE,
    checkpoints: ['address', 'takeaway', 'impact'],
    why: say`Down the line the shoulders are seen nearly end on here: a tilt of 19° looked like 62° at impact. Read them face on.`,
  },
  {
    views: BOTH_VIEWS,
    checkpoints: ['lead-arm-level-down', 'through'],
    why: say`Both views see the shoulders at a slant here: at through a tilt of 36° looked like 45° in each.`,
  },
];
const HIPS_END_ON: readonly Withdrawal[] = [
  {
    views: DOWN_THE_LINE,
    checkpoints: CHECKPOINTS,
    why: say`Down the line the hips hide one another: a tilt of 1° looked like 7°, and its ± was 20° and more. Read them face on.`,
  },
  {
    views: FACE_ON,
    checkpoints: ['finish'],
    why: say`At the finish the hips face the target and are seen end on: a tilt of 10° looked like 64°.`,
  },
];

function spineAtAddress(places: Places): number | null {
  return inclineFromVertical(places.address('tailbone'), places.address('neck-base'));
}

/** Readings of one line, or of two lines against each other. Formulas from the list of readings of this project. */
export const LINE_ENTRIES = {
  'back-incline': {
    ...ANGLE,
    label: say`Back incline`,
    formula: say`The line from tailbone to neck base, from vertical.`,
    sign: TOWARD_BALL,
    views: DOWN_THE_LINE,
    checkpoints: CHECKPOINTS,
    aspects: VALUE,
    points: { here: ['tailbone', 'neck-base'], address: [] },
    upright: true,
    compute: ({ here }) => inclineFromVertical(here('tailbone'), here('neck-base')),
    plausible: [plausibly('deg', -20, 85)],
    sketch: ({ here, up }) => leaning(here('tailbone'), here('neck-base'), up),
  },
  'neck-over-back': {
    ...ANGLE,
    label: say`Neck over back`,
    formula: say`The line from neck base to head centre, from vertical, less the incline of the back.`,
    sign: { plus: say`the neck leans more than the back`, minus: say`the neck leans less than the back` },
    views: DOWN_THE_LINE,
    checkpoints: ['address'],
    aspects: VALUE,
    points: { here: ['tailbone', 'neck-base', 'head-centre'], address: [] },
    // A roll of the camera turns both lines alike and drops out.
    upright: false,
    compute: ({ here }) => {
      const neck = inclineFromVertical(here('neck-base'), here('head-centre'));
      const back = inclineFromVertical(here('tailbone'), here('neck-base'));
      return neck === null || back === null ? null : wrapAngle(neck - back);
    },
    plausible: [plausibly('deg', -70, 100)],
    sketch: ({ here }) => {
      const [tail, neck, head] = [here('tailbone'), here('neck-base'), here('head-centre')];
      const onward = from(neck, directionOf(tail, neck), gap(neck, head));
      return [line(tail, neck), line(neck, onward), line(neck, head), angle(neck, onward, head)];
    },
  },
  /**
   * Turned from the spine's direction (tailbone -> neck base, at address) through "away from the ball" to the direction
   * lead -> trail shoulder; in (-pi/2, 3 pi/2], so that it is smooth around the wanted 90 degrees. With the spine
   * leaning toward the ball, shoulders nearer the horizontal make it larger: over 90 is flatter, under 90 steeper.
   */
  'shoulder-to-spine': {
    ...ANGLE,
    label: say`Shoulders to spine`,
    formula: say`The angle between the shoulder line, lead to trail, and the spine as it was at address. 90° is square to the spine; more is flatter, less is steeper.`,
    sign: null,
    views: DOWN_THE_LINE,
    checkpoints: ['takeaway', 'lead-arm-level', 'top'],
    aspects: VALUE,
    points: { here: ['lead-shoulder', 'trail-shoulder'], address: ['tailbone', 'neck-base'] },
    // Both lines turn alike with the camera.
    upright: false,
    compute: (places) => {
      const spine = spineAtAddress(places);
      const shoulders = inclineFromVertical(places.here('lead-shoulder'), places.here('trail-shoulder'));
      if (spine === null || shoulders === null) return null;
      return wrapAngle(spine - shoulders - QUARTER_TURN) + QUARTER_TURN;
    },
    meaning: ({ interval: [low, high], value, checkpoint }, { rounded, amount }) => {
      // While the turn is small, side tilt leaks in: a square turn of 95 degrees in space reads 99.
      if (checkpoint === 'takeaway') return null;
      if (low <= SQUARE_TO_SPINE && high >= SQUARE_TO_SPINE) return say`square to the spine within its ±`;
      const miss = rounded(value) - SQUARE_TO_SPINE;
      return miss > 0
        ? say`${amount(Math.abs(miss))} flatter than square`
        : say`${amount(Math.abs(miss))} steeper than square`;
    },
    plausible: [plausibly('deg', 20, 160)],
    sketch: ({ here, address }) =>
      crossing([here('lead-shoulder'), here('trail-shoulder')], [address('tailbone'), address('neck-base')]),
  },
  'shoulder-line': {
    ...ANGLE,
    label: say`Shoulder line`,
    formula: say`How far the line through both shoulders tilts from horizontal.`,
    sign: { plus: say`lead shoulder higher`, minus: say`lead shoulder lower` },
    views: BOTH_VIEWS,
    checkpoints: CHECKPOINTS,
    aspects: VALUE,
    points: { here: ['lead-shoulder', 'trail-shoulder'], address: [] },
    upright: true,
    range: [-QUARTER_TURN, QUARTER_TURN],
    compute: ({ here }) => tiltFromHorizontal(here('trail-shoulder'), here('lead-shoulder')),
    plausible: [plausibly('deg', -65, 65, { view: 'face-on', at: ['address', 'impact'] })],
    sketch: ({ here, along }) => levelled(here('trail-shoulder'), here('lead-shoulder'), along),
    withdrawn: SHOULDERS_END_ON,
  },
  'hip-line': {
    ...ANGLE,
    label: say`Hip line`,
    formula: say`How far the line through both hips tilts from horizontal.`,
    sign: { plus: say`lead hip higher`, minus: say`lead hip lower` },
    views: BOTH_VIEWS,
    checkpoints: CHECKPOINTS,
    aspects: VALUE_AND_CHANGE,
    points: { here: ['lead-hip', 'trail-hip'], address: [] },
    upright: true,
    range: [-QUARTER_TURN, QUARTER_TURN],
    compute: ({ here }) => tiltFromHorizontal(here('trail-hip'), here('lead-hip')),
    plausible: [plausibly('deg', -50, 50), plausibly('deg', -60, 60, { aspect: 'change' })],
    sketch: withAddress(
      ({ along }, where) => levelled(where('trail-hip'), where('lead-hip'), along),
      (_, where) => [line(where('trail-hip'), where('lead-hip'))],
    ),
    withdrawn: HIPS_END_ON,
  },
  'lead-knee': {
    ...ANGLE,
    label: say`Lead knee`,
    formula: say`The angle at the lead knee between hip and ankle; 180° is straight.`,
    sign: null,
    views: BOTH_VIEWS,
    checkpoints: CHECKPOINTS,
    aspects: VALUE_AND_CHANGE,
    points: { here: ['lead-hip', 'lead-knee', 'lead-ankle'], address: [] },
    upright: false,
    range: [0, Math.PI],
    compute: ({ here }) => interiorAngle(here('lead-knee'), here('lead-hip'), here('lead-ankle')),
    plausible: [plausibly('deg', 80, 180), plausibly('deg', -80, 80, { aspect: 'change' })],
    sketch: withAddress((_, where) => bent(where('lead-hip'), where('lead-knee'), where('lead-ankle'))),
    withdrawn: [KNEE_FACE_ON],
  },
  'trail-knee': {
    ...ANGLE,
    label: say`Trail knee`,
    formula: say`The angle at the trail knee between hip and ankle; 180° is straight.`,
    sign: null,
    views: BOTH_VIEWS,
    checkpoints: CHECKPOINTS,
    aspects: VALUE_AND_CHANGE,
    points: { here: ['trail-hip', 'trail-knee', 'trail-ankle'], address: [] },
    upright: false,
    range: [0, Math.PI],
    compute: ({ here }) => interiorAngle(here('trail-knee'), here('trail-hip'), here('trail-ankle')),
    plausible: [plausibly('deg', 80, 180), plausibly('deg', -80, 80, { aspect: 'change' })],
    sketch: withAddress((_, where) => bent(where('trail-hip'), where('trail-knee'), where('trail-ankle'))),
    withdrawn: [
      KNEE_FACE_ON,
      {
        views: DOWN_THE_LINE,
        checkpoints: ['finish'],
        why: say`At the finish the trail leg has turned about: a knee of 138° looked like 173° down the line.`,
      },
    ],
  },
  'shaft-incline': {
    ...ANGLE,
    label: say`Shaft incline`,
    formula: say`The line from clubhead up to grip end, from horizontal; 90° is upright, over 90° the grip is past the head.`,
    sign: null,
    views: DOWN_THE_LINE,
    checkpoints: ['address'],
    aspects: VALUE,
    points: { here: ['grip-end', 'clubhead'], address: [] },
    upright: true,
    // Seen from the grip: the head lies toward the ball and below, so the rise is that of the line turned about.
    compute: ({ here }) => {
      const shaft = inclineFromHorizontal(here('grip-end'), here('clubhead'));
      return shaft === null ? null : wrapAngle(-shaft);
    },
    plausible: [plausibly('deg', 20, 90)],
    sketch: ({ here, along }) => {
      const [head, grip] = [here('clubhead'), here('grip-end')];
      const level = from(head, along, -gap(head, grip));
      return [line(head, grip), line(head, level), angle(head, level, grip)];
    },
  },
  'side-tilt': {
    ...ANGLE,
    label: say`Side tilt`,
    formula: say`The line from the middle of the hips to the neck base, from vertical.`,
    sign: TOWARD_TARGET,
    views: FACE_ON,
    checkpoints: CHECKPOINTS,
    aspects: VALUE,
    points: { here: ['lead-hip', 'trail-hip', 'neck-base'], address: [] },
    upright: true,
    compute: ({ here }) => inclineFromVertical(midpoint(here('lead-hip'), here('trail-hip')), here('neck-base')),
    plausible: [plausibly('deg', -60, 60)],
    sketch: ({ here, up }) => {
      const [lead, trail] = [here('lead-hip'), here('trail-hip')];
      return [line(lead, trail), ...leaning(middle(lead, trail), here('neck-base'), up)];
    },
  },
} as const satisfies Record<string, PlacedEntry>;
