import { edgesOf } from '../../geometry/box.ts';
import type { Edges } from '../../geometry/box.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { BoxShape, FrameMarks } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import type { Places } from '../catalogue/entry.ts';
import type { GroundMap } from '../camera/ground.ts';
import type { Depth } from '../camera/depth-of-point.ts';
import { isOfOpinion } from '../camera/of-opinion.ts';
import type { CameraStand } from '../camera/stand.ts';
import { HEAD_FILLS, anywhereIn, headWidens } from './head-outline.ts';
import type { HeadSource } from './head-outline.ts';
import type { ClipLens } from '../camera/lens-of-clip.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { placesSeen } from './seen-places.ts';
import type { BoxSlots, DepthSlot, PointSlots, Slots } from './seen-places.ts';

/** The inputs of one reading, and how to see a list of their values as places. */
export interface PlaceInputs {
  readonly quantities: readonly Quantity[];
  /**
   * Views `values` (in the order of `quantities`) as places; `at` is the checkpoint that `here` means. `asSeen`: as the
   * picture shows them, whatever is known of the camera.
   */
  readonly view: (values: readonly number[], at: Checkpoint, asSeen?: boolean) => Places;
  /** Adds an input and returns its place in the list; the same name is one input. */
  readonly add: (quantity: Quantity) => number;
  readonly addPoint: (point: BodyPointId, checkpoint: Checkpoint) => void;
  /** Drawn on the frame of address; it lies as deep as the head there. */
  readonly addHeadBox: (box: BoxShape) => void;
  /** After the head box, of which the head may be said to fill a part, and the head centre; `checkpoint`: the one that is read. */
  readonly addHead: (source: HeadSource, checkpoint: Checkpoint) => void;
  readonly addPlumb: (tilt: Quantity) => void;
  /** Before any point: from then on points have depths, and are seen as from far off along the view's line. */
  readonly addStand: (stand: CameraStand) => void;
  /** Places of inputs of which one scales what the other does; to be asked when all are added. */
  readonly turned: () => readonly (readonly [number, number])[];
  readonly addGround: (ground: GroundMap) => void;
  /** From then on points and boxes are seen straightened. */
  readonly addLens: (lens: ClipLens) => void;
  readonly from: readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[];
  /** Whether any input's placing error is assumed, any point is hidden, and any was accepted as it was proposed. */
  readonly remarks: () => { readonly assumed: boolean; readonly hidden: boolean; readonly guessed: boolean };
}

/**
 * Collects what one reading depends on. A point used twice, here and at address or in a reference length, is one pair
 * of inputs, so that what it does to the parts of a formula cancels or adds as it must.
 */
export function gatherPlaceInputs(
  clip: MarkedClip,
  side: 1 | -1,
  placing: PlacingErrors,
  marks: (checkpoint: Checkpoint) => FrameMarks | null,
): PlaceInputs {
  const quantities: Quantity[] = [];
  const from: { point: BodyPointId; checkpoint: Checkpoint }[] = [];
  const named = new Map<string, number>();
  const points = new Map<Checkpoint, Map<BodyPointId, PointSlots>>();
  const slots: Slots = {
    ...{ side, points, stand: null, depthsBy: null, tilt: null },
    ...{ lens: null, ground: null, box: null, head: null },
  };
  const nearness = new Set<number>();
  let assumed = false;
  let hidden = false;
  let guessed = false;

  const add = (quantity: Quantity): number => {
    const known = named.get(quantity.name);
    if (known !== undefined) return known;
    named.set(quantity.name, quantities.length);
    return quantities.push(quantity) - 1;
  };
  const addPoint = (point: BodyPointId, checkpoint: Checkpoint): void => {
    const placed = marks(checkpoint)?.points[point];
    const known = points.get(checkpoint) ?? new Map<BodyPointId, PointSlots>();
    if (known.has(point) || placed === undefined) return;
    const isLearnt = placed.proposed?.learnt !== undefined;
    const error = placingSigma(placing, clip.height, point, placed.hidden, placed.guess, isLearnt);
    assumed ||= error.assumed;
    hidden ||= placed.hidden;
    guessed ||= placed.guess !== undefined;
    const scatter = { ...scatterOf(error.sigma, slots.stand?.of, point, checkpoint), ...restsOn(point, error.freedom) };
    const at = add({ name: `${point} at ${checkpoint}, x`, value: placed.x, ...scatter });
    add({ name: `${point} at ${checkpoint}, y`, value: placed.y, ...scatter });
    from.push({ point, checkpoint });
    const inSpace = slots.stand === null ? { depth: null, taken: null } : addInSpace(slots.stand.of, point, checkpoint);
    known.set(point, { at, ...inSpace });
    points.set(checkpoint, known);
  };
  const addInSpace = (of: CameraStand, point: BodyPointId, at: Checkpoint): Omit<PointSlots, 'at'> => {
    return { depth: addDepth(of, point, at), taken: addTaken(of, point, at) };
  };
  const addDepth = (of: CameraStand, point: BodyPointId, at: Checkpoint): DepthSlot => {
    const { value, u, isSeen, ...others } = of.depthOf(point, at);
    const usual = isSeen ? {} : ({ shared: 'player' } as const);
    const slot = add({ name: `${point} at ${at}, depth`, value, u, source: 'depth', ...usual });
    nearness.add(slot);
    return { slot, told: isSeen && of.depthsBy !== null ? addTold(of.depthsBy, point, others) : null };
  };
  const addTold = (
    { scales, yaw, roll }: NonNullable<CameraStand['depthsBy']>,
    point: BodyPointId,
    { takenU, perYaw, perRoll }: Pick<Depth, 'takenU' | 'perYaw' | 'perRoll'>,
  ): DepthSlot['told'] => {
    slots.depthsBy = { scales: scales.map(add), yaw: add(yaw), roll: add(roll) };
    const off = { value: 0, u: takenU, source: 'depth', shared: 'player' } as const;
    return { perYaw, perRoll, taken: takenU === 0 ? null : add({ name: `${point} is taken, depth`, ...off }) };
  };
  /** Always so by one coach on one player: a point of several checkpoints has it once. */
  const addTaken = (of: CameraStand, point: BodyPointId, at: Checkpoint): number | null => {
    if (!isOfOpinion(point)) return null;
    const u = of.errors.definition.shared * pixelsPerMetreAt(of, point, at);
    const taken = { value: 0, u, source: 'definition', shared: 'player' } as const;
    const slot = add({ name: `${point} is taken, x`, ...taken });
    add({ name: `${point} is taken, y`, ...taken });
    return slot;
  };
  const addStand = (of: CameraStand): void => {
    if (slots.stand !== null) return;
    slots.stand = { of, first: quantities.length };
    for (const quantity of of.quantities) add(quantity);
  };
  const turned = (): readonly (readonly [number, number])[] => {
    if (slots.stand === null) return [];
    const { of, first } = slots.stand;
    // What moves all depths of a day together goes with this camera's turn as each depth does.
    const { scales = [], yaw, roll } = slots.depthsBy ?? {};
    const near = [...nearness, ...scales, yaw, roll].filter((slot) => slot !== undefined);
    return of.turning.flatMap((turn) => near.map((depth) => [first + turn, depth] as const));
  };
  /** `frame`: the one that it was drawn on, where it lies as deep as the head does. */
  const addBox = (name: 'box' | 'head', shape: BoxShape, frame: Checkpoint): BoxSlots => {
    const { sigma } = placingSigma(placing, clip.height, null, false);
    const edges = edgesOf(shape);
    assumed = true;
    const edge = (side: keyof Edges): number => add({ name: `${name} ${side}`, value: edges[side], u: sigma });
    const at = { left: edge('left'), top: edge('top'), right: edge('right'), bottom: edge('bottom') };
    return { at, depth: slots.stand === null ? null : addDepth(slots.stand.of, 'head-centre', frame) };
  };
  const addHeadBox = (box: BoxShape): void => {
    slots.box ??= addBox('box', box, 'address');
  };
  const addHead = ({ kind, shape }: HeadSource, checkpoint: Checkpoint): void => {
    const outline = kind === 'box' ? slots.box : addBox('head', shape, kind === 'here' ? checkpoint : 'address');
    if (outline === null) throw new Error('places: the head box is listed before the head');
    const spread = { spread: 'rectangular', source: 'head' } as const;
    const moves = () => ({
      fills: kind === 'box' ? add({ name: 'head fills', ...anywhereIn(HEAD_FILLS), ...spread }) : null,
      // One player turns his head alike from swing to swing, and from day to day.
      widens: add({ name: 'head widens', ...anywhereIn(headWidens(checkpoint)), ...spread, shared: 'player' }),
    });
    slots.head = { outline, moves: kind === 'here' ? null : moves() };
  };
  const addGround = (of: GroundMap): void => {
    if (slots.ground !== null) return;
    assumed = true;
    slots.ground = { of, first: quantities.length };
    for (const quantity of of.quantities) add(quantity);
  };
  const addLens = (of: ClipLens): void => {
    if (slots.lens !== null) return;
    slots.lens = { of, first: quantities.length };
    for (const quantity of of.quantities) add(quantity);
  };
  const addPlumb = (tilt: Quantity): void => {
    assumed ||= tilt.source === 'plumb';
    slots.tilt = add(tilt);
  };

  const view = placesSeen(slots);
  return {
    quantities,
    view: (values, at, asSeen = false) => view(values, at, asSeen),
    add,
    addPoint,
    addHeadBox,
    addHead,
    addPlumb,
    addStand,
    turned,
    addGround,
    addLens,
    from,
    remarks: () => ({ assumed, hidden, guessed }),
  };
}

/** A click and, of a joint, where it is taken to lie on this frame. */
function scatterOf(
  sigma: number,
  stand: CameraStand | undefined,
  point: BodyPointId,
  at: Checkpoint,
): Pick<Quantity, 'u' | 'parts'> {
  const anew =
    stand === undefined || !isOfOpinion(point) ? 0 : stand.errors.definition.anew * pixelsPerMetreAt(stand, point, at);
  if (anew === 0) return { u: sigma };
  return {
    u: Math.hypot(sigma, anew),
    parts: [
      { source: 'placing', u: sigma },
      { source: 'definition', u: anew },
    ],
  };
}

/** What is nearer to the camera is larger in the picture. */
function pixelsPerMetreAt(stand: CameraStand, point: BodyPointId, at: Checkpoint): number {
  const { value: distance } = stand.quantities[stand.distanceAt] ?? { value: Infinity };
  return stand.pixelsPerMetre / (1 - stand.depthOf(point, at).value / distance);
}

/** A body point's placing error is one estimate wherever the point is placed. */
export function restsOn(point: BodyPointId, freedom: number): Pick<Quantity, 'rests'> {
  return freedom === Infinity ? {} : { rests: { on: point, freedom } };
}
