import { say } from '../../model/say.ts';
import { beyondBox, boxOfNoSize, edgesOf } from '../../geometry/box.ts';
import { AFTER_ADDRESS, FACE_ON, VALUE, plausibly } from './entry.ts';
import type { MeaningFigures, PlacedEntry } from './entry.ts';
import type { MeasuredReading } from '../../model/reading.ts';
import { length } from './sketch.ts';
import { farthestOut, ovalIn } from './sketch-places.ts';

const HEAD = {
  quantity: 'length',
  headBox: true,
  edges: true,
  upright: true,
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
    compute: ({ head, headBox }) => beyondBox(head(), headBox()),
    plausible: [plausibly('cm', -25, 75)],
    sketch: (places) => {
      const [head, box] = [places.head(), places.headBox()];
      const { edge, out } = farthestOut(head, edgesOf(box), places);
      return [{ kind: 'box', box }, { kind: 'curve', points: ovalIn(head) }, length(edge, out)];
    },
  },
  /** Signed distance of the head centre from the box's nearest edge; see `beyondBox` for corners. */
  'head-centre-box': {
    ...HEAD,
    ...besideEdge({ plus: say`centre outside the box`, minus: say`centre inside the box` }),
    label: say`Head centre in the box`,
    formula: say`How far the middle of the head is beyond the nearest edge of the box drawn at address; inside counts as minus. The head reaches farther: see Head box.`,
    points: { here: ['head-centre'], address: [] },
    compute: ({ here, headBox }) => beyondBox(boxOfNoSize(here('head-centre')), headBox()),
    plausible: [plausibly('cm', -25, 60)],
    sketch: (places) => {
      const [{ x, y }, box] = [places.here('head-centre'), places.headBox()];
      const { edge, out } = farthestOut({ left: x, top: y, right: x, bottom: y }, edgesOf(box), places);
      return [{ kind: 'box', box }, length(edge, out)];
    },
  },
} as const satisfies Record<string, PlacedEntry>;
