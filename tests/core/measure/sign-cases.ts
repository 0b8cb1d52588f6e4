import type { BoxShape } from '../../../core/model/mark.ts';
import type { ReadingAspect, ReadingId, Unit } from '../../../core/model/reading.ts';
import type { Checkpoint } from '../../../core/model/words.ts';
import type { Given } from './build-swing.ts';

/**
 * Hand-worked triangles of 3-4-5 (36.8699 and 53.1301 degrees), right-handed: down the line the ball, face on the target
 * lies to the right of the picture; y runs down.
 * A list of cases, longer than other files because each stands by itself.
 */
const A = 36.86989764584402;
const B = 53.13010235415598;
const BOX: BoxShape = { id: 'box', kind: 'box', role: 'head-box', x: 450, y: 150, width: 100, height: 100 };

const HEAD: BoxShape = { id: 'head', kind: 'box', role: 'head', x: 465, y: 160, width: 70, height: 80 };
/** The middle of 1 and of what half a quarter turn makes of a skull 199.5 mm long and 154.3 mm broad (ANSUR II, men). */
const HEAD_WIDER = (1 + Math.sqrt((1 + (199.5 / 154.3) ** 2) / 2)) / 2;

/** One reading of one picture drawn by hand. */
export interface SignCase {
  readonly id: ReadingId;
  readonly at: Checkpoint;
  readonly value: number;
  readonly unit: Unit;
  readonly aspect?: ReadingAspect;
  readonly why: string;
  readonly given: Given;
}

const BACK = { tailbone: [300, 600], 'neck-base': [600, 200] } as const;
/** Right angle to BACK, 200 px and 150 px: from lead shoulder up and away from the ball. */
const SQUARE = { 'lead-shoulder': [700, 400], 'trail-shoulder': [500, 250] } as const;
const FACING = { 'head-centre': [500, 200], 'lead-shoulder': [600, 300], 'trail-shoulder': [400, 300] } as const;
/** 300 toward the ball and 400 down: 500 px. */
const SHAFT = { 'grip-end': [500, 400], clubhead: [800, 800] } as const;
const behind = (placed: Given['placed']): Given => ({ view: 'down-the-line', placed });
const facing = (placed: Given['placed'], shapes: Given['shapes'] = []): Given => ({ view: 'face-on', placed, shapes });

export const SIGN_CASES: readonly SignCase[] = [
  {
    id: 'back-incline',
    at: 'address',
    value: A,
    unit: 'deg',
    why: '300 toward the ball over 400 up',
    given: behind({ address: BACK }),
  },
  {
    id: 'neck-over-back',
    at: 'address',
    value: B - A,
    unit: 'deg',
    why: 'the neck runs 80 over 60, more bent than the back',
    given: behind({ address: { ...BACK, 'head-centre': [680, 140] } }),
  },
  {
    id: 'neck-over-back',
    at: 'address',
    value: -A,
    unit: 'deg',
    why: 'the neck stands upright',
    given: behind({ address: { ...BACK, 'head-centre': [600, 120] } }),
  },
  {
    id: 'shoulder-to-spine',
    at: 'top',
    value: 90,
    unit: 'deg',
    why: 'the shoulder line is square to the spine of address',
    given: behind({ address: BACK, top: SQUARE }),
  },
  {
    id: 'shoulder-to-spine',
    at: 'top',
    value: 90 + A,
    unit: 'deg',
    why: 'level shoulders are flatter: over 90',
    given: behind({ address: BACK, top: { 'lead-shoulder': [700, 400], 'trail-shoulder': [500, 400] } }),
  },
  {
    id: 'shoulder-to-spine',
    at: 'top',
    value: 90 - (B - A),
    unit: 'deg',
    why: 'shoulders that rise 4 over 3 are steeper: under 90',
    given: behind({ address: BACK, top: { 'lead-shoulder': [650, 450], 'trail-shoulder': [500, 250] } }),
  },
  {
    id: 'shoulder-to-spine',
    at: 'top',
    value: 90,
    unit: 'deg',
    why: 'the spine at the top does not matter',
    given: behind({ address: BACK, top: { ...SQUARE, tailbone: [100, 600], 'neck-base': [900, 590] } }),
  },
  {
    id: 'shoulder-line',
    at: 'address',
    value: A,
    unit: 'deg',
    why: 'the lead shoulder is higher',
    given: facing({ address: { 'lead-shoulder': [600, 150], 'trail-shoulder': [400, 300] } }),
  },
  {
    id: 'shoulder-line',
    at: 'top',
    value: -A,
    unit: 'deg',
    why: 'the lead shoulder is lower, wherever it points',
    given: behind({ top: { 'lead-shoulder': [400, 300], 'trail-shoulder': [600, 150] } }),
  },
  {
    id: 'hip-line',
    at: 'impact',
    aspect: 'change',
    value: A,
    unit: 'deg',
    why: 'level at address, lead hip higher at impact',
    given: facing({
      address: { 'lead-hip': [600, 500], 'trail-hip': [400, 500] },
      impact: { 'lead-hip': [600, 350], 'trail-hip': [400, 500] },
    }),
  },
  {
    id: 'trail-knee',
    at: 'top',
    value: 180,
    unit: 'deg',
    why: 'straight',
    given: behind({ top: { 'trail-hip': [300, 300], 'trail-knee': [330, 500], 'trail-ankle': [360, 700] } }),
  },
  {
    id: 'trail-knee',
    at: 'top',
    aspect: 'change',
    value: 90,
    unit: 'deg',
    why: 'a right angle at address, straight at the top: it straightened by 90',
    given: behind({
      address: { 'trail-hip': [300, 500], 'trail-knee': [500, 500], 'trail-ankle': [500, 700] },
      top: { 'trail-hip': [500, 300], 'trail-knee': [500, 500], 'trail-ankle': [500, 700] },
    }),
  },
  {
    id: 'lead-knee',
    at: 'address',
    value: 90 + A,
    unit: 'deg',
    why: 'the thigh leans 3 over 4 past level',
    given: behind({ address: { 'lead-hip': [340, 380], 'lead-knee': [500, 500], 'lead-ankle': [500, 700] } }),
  },
  {
    id: 'shaft-incline',
    at: 'address',
    value: B,
    unit: 'deg',
    why: 'the clubhead is 300 toward the ball and 400 below the grip',
    given: behind({ address: SHAFT }),
  },
  {
    id: 'hip-rise',
    at: 'impact',
    value: 30,
    unit: 'px',
    why: 'up is smaller y',
    given: behind({ address: { tailbone: [300, 600] }, impact: { tailbone: [340, 570] } }),
  },
  {
    id: 'hip-depth',
    at: 'impact',
    value: 40,
    unit: 'px',
    why: 'toward the ball is right: the hips by 40 in the middle, wherever the tailbone goes',
    given: behind({
      address: { 'lead-hip': [310, 600], 'trail-hip': [290, 600], tailbone: [250, 600] },
      impact: { 'lead-hip': [300, 600], 'trail-hip': [380, 590], tailbone: [400, 570] },
    }),
  },
  {
    id: 'head-shift',
    at: 'top',
    value: -20,
    unit: '% head box',
    why: '20 px away from the target in a box 100 px wide',
    given: facing({ address: FACING, top: { 'head-centre': [480, 190] } }, [BOX]),
  },
  {
    id: 'head-rise',
    at: 'top',
    value: 10,
    unit: '% head box',
    why: '10 px up',
    given: facing({ address: FACING, top: { 'head-centre': [480, 190] } }, [BOX]),
  },
  {
    id: 'head-centre-box',
    at: 'top',
    value: -30,
    unit: '% head box',
    why: '30 px inside the left edge',
    given: facing({ address: FACING, top: { 'head-centre': [480, 190] } }, [BOX]),
  },
  {
    id: 'head-centre-box',
    at: 'top',
    value: 10,
    unit: '% head box',
    why: '10 px beyond the left edge',
    given: facing({ address: FACING, top: { 'head-centre': [440, 190] } }, [BOX]),
  },
  // The head fills 8 tenths of the 50 px from its centre to the box's edges, and looks 1.0779 times as wide for a turn.
  {
    id: 'head-box',
    at: 'top',
    value: -30 + 40 * HEAD_WIDER,
    unit: '% head box',
    why: 'its centre 30 px inside the left edge',
    given: facing({ address: FACING, top: { 'head-centre': [480, 200] } }, [BOX]),
  },
  {
    id: 'head-box',
    at: 'top',
    value: 5,
    unit: '% head box',
    why: 'drawn 10 px inside the upper edge at address, and 15 px higher since',
    given: facing({ address: FACING, top: { 'head-centre': [500, 185] } }, [BOX, HEAD]),
  },
  {
    id: 'upper-centre-shift',
    at: 'top',
    value: -25,
    unit: '% shoulder width',
    why: 'the neck base moved 50 px away, of shoulders 200 px wide at address, wherever their middle went',
    given: facing({
      address: { ...FACING, 'neck-base': [500, 280] },
      top: { 'neck-base': [450, 290], 'lead-shoulder': [400, 330], 'trail-shoulder': [300, 250] },
    }),
  },
  {
    id: 'lower-centre-shift',
    at: 'impact',
    value: 40,
    unit: 'px',
    why: 'no shoulders at address to compare with',
    given: facing({
      address: { 'lead-hip': [560, 500], 'trail-hip': [440, 500] },
      impact: { 'lead-hip': [600, 500], 'trail-hip': [480, 500] },
    }),
  },
  {
    id: 'side-tilt',
    at: 'address',
    value: -A,
    unit: 'deg',
    why: 'the neck is 300 away from the target, 400 above the middle of the hips',
    given: facing({ address: { 'lead-hip': [700, 600], 'trail-hip': [500, 600], 'neck-base': [300, 200] } }),
  },
  {
    id: 'club-radius',
    at: 'impact',
    value: 1.2,
    unit: 'ratio',
    why: '500 px at address, 600 px at impact',
    given: facing({
      address: { 'lead-shoulder': [600, 300], clubhead: [300, 700] },
      impact: { 'lead-shoulder': [600, 300], clubhead: [0, 300] },
    }),
  },
  {
    id: 'stance-width',
    at: 'address',
    value: 125,
    unit: '% shoulder width',
    why: 'ankles 250 px apart, shoulders 200 px',
    given: facing({ address: { ...FACING, 'lead-ankle': [620, 800], 'trail-ankle': [370, 800] } }),
  },
  {
    id: 'hands-off-plane',
    at: 'top',
    value: 0.2,
    unit: 'club lengths',
    why: 'the grip end is 100 px square to the shaft of 500 px, toward the ball and up',
    given: behind({ address: SHAFT, top: { 'grip-end': [580, 340] } }),
  },
  {
    id: 'head-off-plane',
    at: 'takeaway',
    value: -0.1,
    unit: 'club lengths',
    why: 'the clubhead is 50 px square to the shaft of 500 px, toward the player and down',
    given: behind({ address: SHAFT, takeaway: { clubhead: [760, 830] } }),
  },
];
