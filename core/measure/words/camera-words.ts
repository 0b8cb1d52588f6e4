import { say, loweredFirst } from '../../model/say.ts';
import { toDegrees } from '../../geometry/angle.ts';
import type { LensRefusal } from '../../geometry/fit-lens.ts';
import type { GroundCameraRefusal } from '../../geometry/fit-ground-camera.ts';
import type { GroundLayout, Plane } from '../../model/mark.ts';
import type { View } from '../../model/words.ts';
import { apparentFromHorizontal, apparentFromVertical } from '../camera/camera-honesty.ts';
import type { CameraNotTold, CameraNumber, CameraPlace, CameraReport, LensReport } from '../camera/camera-of-clip.ts';
import { formatAbout, formatNumber } from './format.ts';
import { listed } from './words.ts';

/** Which place of a layout is meant, for "Click ..."; null for places that were measured one by one. */
export const LAYOUT_PLACES: Readonly<Record<Exclude<GroundLayout, 'measured'>, readonly string[]>> = {
  mat: [
    say`the corner nearest the target, at the ball's side`,
    say`the corner nearest the target, at the player's side`,
    say`the corner farthest from the target, at the player's side`,
    say`the corner farthest from the target, at the ball's side`,
  ],
  sticks: [
    say`the end toward the target`,
    say`the end away from the target`,
    say`the end toward the ball`,
    say`the end toward the player`,
  ],
};

/** A place of ground marks in words; those that were measured are counted from 1. */
export function groundPlaceWords(layout: GroundLayout, place: number): string {
  const words = layout === 'measured' ? undefined : LAYOUT_PLACES[layout][place];
  return words ?? say`place ${String(place + 1)}`;
}

/** Why ground marks tell nothing, or no camera, and what to do, as one sentence. */
export function groundRefusalWords(
  { reason, marks }: { readonly reason: GroundCameraRefusal['reason']; readonly marks: readonly number[] },
  layout: GroundLayout,
): string {
  const which = listed(marks.map((place) => groundPlaceWords(layout, place)));
  switch (reason) {
    case 'too-few':
      return say`There are too few marks: at least four are needed.`;
    case 'same-place':
      return say`Two marks share one place: ${which}. Move one, or correct its size.`;
    case 'on-a-line':
      return say`These marks are nearly in one line. Add one off to the side.`;
    case 'over-horizon':
      return say`No camera can see these marks: ${which} would be at the horizon. Two are probably swapped.`;
    case 'no-horizon':
      return say`These marks are all equally far away, so the camera height is unknown. Mark some nearer and some farther.`;
    case 'no-focal':
      return say`These marks can't be right. Two are probably swapped, or a size is wrong.`;
    case 'focal-unsure':
      return say`These marks are too close together to place the camera. Spread them out.`;
  }
}

const LENS_REFUSALS: Readonly<Record<LensRefusal, string>> = {
  'too-few-places': say`Click more spots: at least three on each edge, five on a single one.`,
  'through-middle': say`They run through the middle of the picture, where every lens shows straight lines. Mark one near the edge.`,
  'too-short': say`They are too short to show a bend. Mark one that runs over a third of the picture and more.`,
  'no-lens': say`No lens bends lines like these. Check where you clicked.`,
  'still-bent': say`They stay bent by more than click error explains. One of them is not straight.`,
  'not-significant': say`They look straight within the click error, so nothing is corrected.`,
};

/** One thing that the marks tell of the camera. `warns`: the numbers beside it must not be trusted. */
export interface CameraSentence {
  readonly text: string;
  readonly warns?: true;
}

/** All that is known of the camera, in sentences; empty where nothing of a kind is marked. */
export interface CameraWords {
  /** In one line, for a card that is folded. */
  readonly summary: string;
  readonly ground: readonly CameraSentence[];
  readonly lens: readonly CameraSentence[];
  readonly upright: readonly CameraSentence[];
  readonly scale: readonly CameraSentence[];
}

export function cameraInWords(report: CameraReport, view: View, layout: GroundLayout): CameraWords {
  const { ground, lens, upright, scales } = report;
  return {
    summary: summaryOf(report),
    ground: ground === null ? [] : groundSentences(ground, view, layout),
    lens: lens === null ? [] : [lensSentence(lens)],
    upright: upright === null ? [] : [uprightSentence(upright)],
    scale: scales.map(({ plane, count, value, u }) => ({
      text: say`Scale ${PLANE_WORDS[plane]}: ${formatNumber(value, u, 'cm a pixel').text}, from ${knownLengths(count)}.`,
    })),
  };
}

const PLANE_WORDS: Readonly<Record<Plane, string>> = { player: say`by the player`, ball: say`at the ball` };

function knownLengths(count: number): string {
  return count === 1 ? say`1 known length` : say`${count} known lengths`;
}

function summaryOf({ ground, lens, upright, scales }: CameraReport): string {
  const parts: string[] = [];
  if (ground?.state === 'told') parts.push(ground.isMixedUp ? say`ground marks mixed up` : yawInShort(ground.yaw));
  else if (ground !== null) parts.push(say`camera not found`);
  if (lens?.state === 'told') parts.push(say`lens straightened`);
  if (upright !== null) {
    const { isNone, plusMinus, text } = turn(upright);
    parts.push(isNone ? say`upright ${plusMinus}` : say`leans ${text}`);
  }
  if (scales.length > 0) parts.push(knownLengths(scales.reduce((sum, { count }) => sum + count, 0)));
  return parts.length === 0 ? say`nothing marked yet` : parts.join(', ');
}

function yawInShort(yaw: CameraNumber): string {
  const { isNone, plusMinus } = turn(yaw);
  return isNone ? say`straight ${plusMinus}` : say`pointed ${sideways(yaw)}`;
}

/** Degrees without their sign, which the words beside it say. `isNone`: it would be written as 0. */
function turn({ value, u }: CameraNumber): {
  readonly text: string;
  readonly plusMinus: string;
  readonly isNone: boolean;
} {
  const written = formatNumber(Math.abs(toDegrees(value)), toDegrees(u), 'deg');
  return { text: written.text, plusMinus: `± ${written.plusMinus}°`, isNone: !/[1-9]/.test(written.value) };
}

/** E.g. "6.2° ± 1.1° to the right". */
function sideways(number: CameraNumber): string {
  return number.value < 0 ? say`${turn(number).text} to the left` : say`${turn(number).text} to the right`;
}

/** How the vertical stands in the picture, e.g. "leans 1.2° ± 0.3° to the left", "stands upright, ± 0.3°,". */
function leaning(number: CameraNumber): string {
  const { isNone, plusMinus } = turn(number);
  return isNone ? say`stands upright, ${plusMinus},` : say`leans ${sideways(number)}`;
}

/** "A of 40° looks 39.8°" is told for these. Degrees; common sizes at address, ours. */
const EXAMPLES: Readonly<
  Record<
    View,
    readonly { readonly words: string; readonly from: 'vertical' | 'horizontal'; readonly degrees: number }[]
  >
> = {
  'down-the-line': [
    { words: say`A back incline`, from: 'vertical', degrees: 40 },
    { words: say`a shaft incline`, from: 'horizontal', degrees: 60 },
  ],
  'face-on': [{ words: say`A side tilt`, from: 'vertical', degrees: 15 }],
};

const WAYS: Readonly<Record<View, string>> = {
  'down-the-line': say`the target line`,
  'face-on': say`the line square to the target line`,
};

function groundSentences(
  ground: CameraPlace | CameraNotTold,
  view: View,
  layout: GroundLayout,
): readonly CameraSentence[] {
  if (ground.state === 'not-told') return [{ text: groundRefusalWords(ground, layout), warns: true }];
  if (ground.isMixedUp)
    return [
      {
        text: say`These marks fit a player of the opposite handedness. Check the order you clicked, or the lesson's handedness.`,
        warns: true,
      },
    ];
  const { height, distance, yaw, pitch, roll } = ground;
  const strained: readonly CameraSentence[] = ground.isStrained
    ? [
        {
          text: say`These marks do not fit a whole picture: it was cropped or steadied, or a size is wrong. Do not trust where the camera pointed.`,
          warns: true,
        },
      ]
    : [];
  return [
    ...strained,
    {
      text: say`The lens stood ${formatNumber(height.value, height.u, 'm').text} above the ground, ${formatNumber(distance.value, distance.u, 'm').text} from the middle of the marks.`,
    },
    ...yawSentences(yaw, view),
    { text: say`It pointed ${tilted(pitch)}; the true vertical ${leaning(roll)} in the picture.` },
  ];
}

/** Where the camera looked, and what that does to inclines. */
function yawSentences(yaw: CameraNumber, view: View): readonly CameraSentence[] {
  const { isNone, plusMinus } = turn(yaw);
  if (isNone) return [{ text: say`The camera pointed along ${WAYS[view]}, ${plusMinus}: angles look as they are.` }];
  return [
    { text: say`The camera pointed ${sideways(yaw)} of ${WAYS[view]}.` },
    { text: `${exampleWords(yaw, view)}.` },
  ];
}

function tilted(pitch: CameraNumber): string {
  const { isNone, plusMinus, text } = turn(pitch);
  if (isNone) return say`level, ${plusMinus}`;
  return pitch.value < 0 ? say`${text} down` : say`${text} up`;
}

/** What such a turn does to inclines that are often read, in as many figures as the turn's own ± leaves. */
export function exampleWords({ value, u }: CameraNumber, view: View): string {
  const parts = EXAMPLES[view].map(({ words, from, degrees: size }) => {
    const incline = (size * Math.PI) / 180;
    const seen = (yaw: number) =>
      toDegrees(from === 'vertical' ? apparentFromVertical(incline, yaw) : apparentFromHorizontal(incline, yaw));
    const unsure = Math.abs(seen(value + u) - seen(value - u)) / 2;
    return say`${words} of ${String(size)}° looks ${formatAbout(seen(value), unsure, 'deg')}`;
  });
  return say`Turned so far, ${loweredFirst(listed(parts))}`;
}

function lensSentence(lens: LensReport): CameraSentence {
  const from = lens.edges === 1 ? say`1 straight edge` : say`${lens.edges} straight edges`;
  if (lens.state === 'not-told') return { text: `${from}: ${LENS_REFUSALS[lens.reason]}` };
  const { value, u } = lens.corner;
  const by = formatNumber(Math.abs(value), u, 'px').text;
  return {
    text:
      value < 0
        ? say`The lens bends the corners outward by ${by}, from ${from}; readings are corrected for it.`
        : say`The lens bends the corners inward by ${by}, from ${from}; readings are corrected for it.`,
  };
}

function uprightSentence({ value, u, count }: NonNullable<CameraReport['upright']>): CameraSentence {
  const from = count === 1 ? say`1 plumb or level` : say`${String(count)} plumbs and levels`;
  return {
    text: say`The true vertical ${leaning({ value, u })} in the picture, from ${from}; angles are measured from it.`,
  };
}
