import { say } from '../../model/say.ts';
import { beyondEdges, boxBeyondEdges } from '../../geometry/box.ts';
import { AFTER_ADDRESS, FACE_ON, VALUE, plausibly } from './entry.ts';
import type { MeaningFigures, PlacedEntry } from './entry.ts';
import type { MeasuredReading } from '../../model/reading.ts';
import { length } from './sketch.ts';
import { farthestOut, onNearestEdge, ovalIn } from './sketch-places.ts';

const HEAD = {
  quantity: 'length',
  headBox: true,
  edges: true,
  // The box is upright in the picture, and the head is held against it there.
  upright: false,
  ground: false,
  plane: 'player',
  range: null,
  isSize: false,
  views: FACE_ON,
  checkpoints: AFTER_ADDRESS,
  aspects: VALUE,
  reference: 'head-box',
} as const;

/** "inside the box by 2.1 cm"; neither, where the 95 % interval holds the edge. */
function besideEdge(sign: NonNullable<PlacedEntry['sign']>) {
  return {
    sign,
    meaning: ({ interval: [low, high], value }: MeasuredReading, { amount }: MeaningFigures) =>
      low <= 0 && high >= 0
        ? say`at the edge of the box: can't tell inside from outside`
        : say`${value > 0 ? sign.plus : sign.minus} by ${amount(Math.abs(value))}`,
  };
}

/** Readings of the head against the box that was drawn round it at address. */
export const HEAD_ENTRIES = {
  /** The side of the head that is farthest out, from the box's edge on that side. */
  'head-box': {
    ...HEAD,
    ...besideEdge({ plus: say`outside the box`, minus: say`inside the box` }),
    label: say`Head box`,
    formula: say`How far head and cap come beyond the box drawn at address, on the side where they are farthest out. Inside counts as minus.`,
    points: { here: ['head-centre'], address: ['head-centre'] },
    head: true,
    compute: ({ head, headBox }) => boxBeyondEdges(head(), headBox()),
    plausible: [plausibly('cm', -25, 75)],
    sketch: (places) => {
      const [head, box] = [places.head(), places.headBox()];
      const { edge, out } = farthestOut(head, box);
      return [{ kind: 'box', box }, { kind: 'curve', points: ovalIn(head) }, length(edge, out)];
    },
  },
  /** Signed distance of the head centre from the box's nearest edge; see `beyondEdges` for corners. */
  'head-centre-box': {
    ...HEAD,
    ...besideEdge({ plus: say`centre outside the box`, minus: say`centre inside the box` }),
    label: say`Head centre in the box`,
    formula: say`How far the middle of the head is beyond the nearest edge of the box drawn at address; inside counts as minus. The head reaches farther: see Head box.`,
    points: { here: ['head-centre'], address: [] },
    compute: ({ pictureHere, headBox }) => beyondEdges(pictureHere('head-centre'), headBox()),
    plausible: [plausibly('cm', -25, 60)],
    withdrawn: [
      {
        views: FACE_ON,
        checkpoints: ['finish'],
        why: say`At the finish the head is far off the plane of its box: 17 of 100 lessons in which nothing changed read as changed. The box is for the swing up to the strike.`,
      },
    ],
    sketch: ({ here, headBox }) => {
      const [head, box] = [here('head-centre'), headBox()];
      return [{ kind: 'box', box }, length(onNearestEdge(head, box), head)];
    },
  },
} as const satisfies Record<string, PlacedEntry>;
