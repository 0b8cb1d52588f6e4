import { edgesOf } from '../../geometry/box.ts';
import type { Edges } from '../../geometry/box.ts';
import type { GroundPoint } from '../../geometry/ground-marks.ts';
import { toSwing } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { BoxShape, FrameMarks, PicturePoint } from '../../model/mark.ts';
import type { MarkedClip } from '../../model/swing.ts';
import type { Checkpoint } from '../../model/words.ts';
import type { Places } from '../catalogue/entry.ts';
import type { GroundMap } from '../camera/ground.ts';
import type { Depth } from '../camera/depth-of-point.ts';
import { isOfOpinion } from '../camera/of-opinion.ts';
import type { CameraStand } from '../camera/stand.ts';
import { HEAD_FILLS, anywhereIn, headMoved, headWidens } from './head-outline.ts';
import type { HeadSource } from './head-outline.ts';
import type { ClipLens } from '../camera/lens-of-clip.ts';
import { placingSigma } from '../uncertainty/placing.ts';
import type { PlacingErrors } from '../uncertainty/placing.ts';
import type { Quantity } from '../uncertainty/uncertain.ts';
import { valueAt } from '../uncertainty/value-at.ts';

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
  readonly addHeadBox: (box: BoxShape) => void;
  /** After the head box, of which the head may be said to fill a part; `checkpoint`: the one that is read. */
  readonly addHead: (source: HeadSource, checkpoint: Checkpoint) => void;
  readonly addPlumb: (tilt: Quantity) => void;
  /** Before any point: from then on points have depths, and are seen as from far off along the view's line. */
  readonly addStand: (stand: CameraStand) => void;
  /** Before any point: joints are unsure by where they are taken to lie, and nothing else of the stand counts. */
  readonly addOpinion: (stand: CameraStand) => void;
  /** Places of inputs of which one scales what the other does; to be asked when all are added. */
  readonly turned: () => readonly (readonly [number, number])[];
  readonly addGround: (ground: GroundMap) => void;
  /** From then on points are seen straightened; the head box and what is held against it stay as they are seen. */
  readonly addLens: (lens: ClipLens) => void;
  readonly from: readonly { readonly point: BodyPointId; readonly checkpoint: Checkpoint }[];
  /** Whether any input's placing error is assumed, any point is hidden, and any was accepted as it was proposed. */
  readonly remarks: () => { readonly assumed: boolean; readonly hidden: boolean; readonly guessed: boolean };
}

/** Place of the pitch among the quantities of a stand. */
const PITCH_AT = 1;

/** In the order in which a box's edges are listed. */
const SIDES = ['left', 'top', 'right', 'bottom'] as const;

/** Where the head's outline stands among the inputs: its edges from one on, and how it moved where it was not drawn here. */
interface HeadSlots {
  readonly outline: number;
  readonly moves: { readonly fills: number | null; readonly widens: number } | null;
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
  const slots = new Map<string, number>();
  // By checkpoint and point, not by a joined name: a Monte Carlo run asks some ten thousand times.
  const pointSlots = new Map<Checkpoint, Map<BodyPointId, number>>();
  let boxSlot: number | null = null;
  let head: HeadSlots | null = null;
  let tiltSlot: number | null = null;
  let stand: { readonly of: CameraStand; readonly first: number } | null = null;
  let opinion: CameraStand | undefined;
  // As `pointSlots`: depth of a point, and how far it is always taken to lie off.
  const depthSlots = new Map<Checkpoint, Map<BodyPointId, number>>();
  const takenSlots = new Map<BodyPointId, number>();
  /** The other view's scale and camera, and what they do to the depths that it tells. */
  let depthsBy: { readonly scale: number; readonly yaw: number; readonly roll: number } | null = null;
  const told = new Map<number, Pick<Depth, 'perYaw' | 'perRoll'> & { readonly taken: number | null }>();
  let lens: { readonly of: ClipLens; readonly first: number } | null = null;
  let ground: { readonly map: GroundMap; readonly first: number } | null = null;
  let assumed = false;
  let hidden = false;
  let guessed = false;

  const add = (quantity: Quantity): number => {
    const known = slots.get(quantity.name);
    if (known !== undefined) return known;
    slots.set(quantity.name, quantities.length);
    return quantities.push(quantity) - 1;
  };
  const addPoint = (point: BodyPointId, checkpoint: Checkpoint): void => {
    const placed = marks(checkpoint)?.points[point];
    const known = pointSlots.get(checkpoint) ?? new Map<BodyPointId, number>();
    if (known.has(point) || placed === undefined) return;
    const isLearnt = placed.proposed?.learnt !== undefined;
    const error = placingSigma(placing, clip.height, point, placed.hidden, placed.guess, isLearnt);
    assumed ||= error.assumed;
    hidden ||= placed.hidden;
    guessed ||= placed.guess !== undefined;
    const scatter = { ...scatterOf(error.sigma, opinion, point, checkpoint), ...restsOn(point, error.freedom) };
    known.set(point, add({ name: `${point} at ${checkpoint}, x`, value: placed.x, ...scatter }));
    add({ name: `${point} at ${checkpoint}, y`, value: placed.y, ...scatter });
    pointSlots.set(checkpoint, known);
    from.push({ point, checkpoint });
    if (stand !== null) addInSpace(stand.of, point, checkpoint);
  };
  const addInSpace = (of: CameraStand, point: BodyPointId, at: Checkpoint): void => {
    const { value, u, takenU, perYaw, perRoll, isSeen } = of.depthOf(point, at);
    const usual = isSeen ? {} : ({ shared: 'player' } as const);
    const depths = depthSlots.get(at) ?? new Map<BodyPointId, number>();
    const slot = add({ name: `${point} at ${at}, depth`, value, u, source: 'depth', ...usual });
    depths.set(point, slot);
    depthSlots.set(at, depths);
    if (isSeen && of.depthsBy !== null) {
      const { scale, yaw, roll } = of.depthsBy;
      depthsBy = { scale: add(scale), yaw: add(yaw), roll: add(roll) };
      const off = { value: 0, u: takenU, source: 'depth', shared: 'player' } as const;
      const taken = takenU === 0 ? null : add({ name: `${point} is taken, depth`, ...off });
      told.set(slot, { perYaw, perRoll, taken });
    }
    if (takenSlots.has(point) || !isOfOpinion(point)) return;
    const taken = {
      value: 0,
      u: of.errors.definition.shared * pixelsPerMetreAt(of, point, at),
      source: 'definition',
      shared: 'player',
    } as const;
    takenSlots.set(point, add({ name: `${point} is taken, x`, ...taken }));
    add({ name: `${point} is taken, y`, ...taken });
  };
  const addStand = (of: CameraStand): void => {
    if (stand !== null) return;
    stand = { of, first: quantities.length };
    opinion = of;
    for (const quantity of of.quantities) add(quantity);
  };
  const turned = (): readonly (readonly [number, number])[] => {
    if (stand === null) return [];
    const { of, first } = stand;
    const depths = [...depthSlots.values()].flatMap((points) => [...points.values()]);
    // What moves all depths of a day together goes with this camera's turn as each depth does.
    if (depthsBy !== null) depths.push(depthsBy.scale, depthsBy.yaw, depthsBy.roll);
    return of.turning.flatMap((turn) => depths.map((depth) => [first + turn, depth] as const));
  };
  const addHeadBox = (box: BoxShape): void => {
    if (boxSlot !== null) return;
    const { sigma } = placingSigma(placing, clip.height, null, false);
    const edges = edgesOf(box);
    assumed = true;
    for (const side of SIDES) add({ name: `box ${side}`, value: edges[side], u: sigma });
    boxSlot = slots.get('box left') ?? null;
  };
  const addHead = (source: HeadSource, checkpoint: Checkpoint): void => {
    if (source.kind !== 'box') {
      const { sigma } = placingSigma(placing, clip.height, null, false);
      const edges = edgesOf(source.shape);
      assumed = true;
      for (const side of SIDES) add({ name: `head ${side}`, value: edges[side], u: sigma });
    }
    const outline = source.kind === 'box' ? boxSlot : slots.get('head left');
    if (outline === null || outline === undefined) throw new Error('places: the head box is listed before the head');
    const spread = { spread: 'rectangular', source: 'head' } as const;
    const moves = () => ({
      fills: source.kind === 'box' ? add({ name: 'head fills', ...anywhereIn(HEAD_FILLS), ...spread }) : null,
      widens: add({ name: 'head widens', ...anywhereIn(headWidens(checkpoint)), ...spread }),
    });
    head = { outline, moves: source.kind === 'here' ? null : moves() };
  };
  const addGround = (map: GroundMap): void => {
    if (ground !== null) return;
    assumed = true;
    const first = quantities.length;
    for (const quantity of map.quantities) add(quantity);
    ground = { map, first };
  };
  const addLens = (of: ClipLens): void => {
    if (lens !== null) return;
    lens = { of, first: quantities.length };
    for (const quantity of of.quantities) add(quantity);
  };
  const addPlumb = (tilt: Quantity): void => {
    assumed ||= tilt.source === 'plumb';
    tiltSlot = add(tilt);
  };

  // Mostly a point is moved and the camera stays: its look is worked out once.
  let lastLook: { readonly standing: readonly number[]; readonly look: ReturnType<CameraStand['look']> } | null = null;
  const lookFor = ({ of, first }: { readonly of: CameraStand; readonly first: number }, values: readonly number[]) => {
    if (lastLook?.standing.every((value, i) => Object.is(value, values[first + i])) === true) return lastLook.look;
    const standing = values.slice(first, first + of.quantities.length);
    lastLook = { standing, look: of.look(standing) };
    return lastLook.look;
  };
  const view = (values: readonly number[], at: Checkpoint, asSeen = false): Places => {
    const leans =
      stand === null || asSeen || tiltSlot === null
        ? 0
        : stand.of.plumbPerPitch * valueAt(values, stand.first + PITCH_AT);
    const stance = { side, tilt: tiltSlot === null ? 0 : valueAt(values, tiltSlot) + leans };
    const seen = (point: BodyPointId, checkpoint: Checkpoint): PicturePoint => {
      const slot = pointSlots.get(checkpoint)?.get(point);
      if (slot === undefined) throw new Error(`places: ${point} at ${checkpoint} is not listed by the reading`);
      return { x: valueAt(values, slot), y: valueAt(values, slot + 1) };
    };
    const straight =
      lens === null ? null : lens.of.at(values.slice(lens.first, lens.first + lens.of.quantities.length));
    const straightened = (point: BodyPointId, checkpoint: Checkpoint): PicturePoint =>
      straight === null ? seen(point, checkpoint) : straight(seen(point, checkpoint));
    const look = stand === null || asSeen ? null : lookFor(stand, values);
    const picture = (point: BodyPointId, checkpoint: Checkpoint): PicturePoint => {
      const place = straightened(point, checkpoint);
      const depth = depthSlots.get(checkpoint)?.get(point);
      if (look === null || depth === undefined) return place;
      const taken = takenSlots.get(point);
      const at =
        taken === undefined ? place : { x: place.x + valueAt(values, taken), y: place.y + valueAt(values, taken + 1) };
      return look(at, depthIn(depth));
    };
    const depthIn = (slot: number): number => {
      const plain = valueAt(values, slot);
      const by = told.get(slot);
      if (by === undefined || depthsBy === null) return plain;
      const turned = by.perYaw * valueAt(values, depthsBy.yaw) + by.perRoll * valueAt(values, depthsBy.roll);
      return valueAt(values, depthsBy.scale) * plain + turned + (by.taken === null ? 0 : valueAt(values, by.taken));
    };
    // One map for all points of a view: it costs more than the points.
    let toGround: ReturnType<GroundMap['at']> | null = null;
    const onGround = (point: BodyPointId, checkpoint: Checkpoint): GroundPoint | null => {
      if (ground === null) throw new Error('places: the ground is not listed by the reading');
      const { map, first } = ground;
      toGround ??= map.at(values.slice(first, first + map.quantities.length));
      return toGround(picture(point, checkpoint));
    };
    const edgesAt = (slot: number): Edges => {
      const [left, top] = [valueAt(values, slot), valueAt(values, slot + 1)];
      const [right, bottom] = [valueAt(values, slot + 2), valueAt(values, slot + 3)];
      return { left, top, right, bottom };
    };
    const headBox = (): Edges => {
      if (boxSlot === null) throw new Error('places: the head box is not listed by the reading');
      return edgesAt(boxSlot);
    };
    const headNow = (): Edges => {
      if (head === null) throw new Error('places: the head is not listed by the reading');
      const { outline, moves } = head;
      if (moves === null) return edgesAt(outline);
      return headMoved(edgesAt(outline), {
        ...{ before: seen('head-centre', 'address'), after: seen('head-centre', at) },
        fills: moves.fills === null ? 1 : valueAt(values, moves.fills),
        widens: valueAt(values, moves.widens),
      });
    };
    return {
      here: (point) => toSwing(picture(point, at), stance),
      address: (point) => toSwing(picture(point, 'address'), stance),
      pictureHere: (point) => seen(point, at),
      pictureOf: seen,
      groundHere: (point) => onGround(point, at),
      groundAddress: (point) => onGround(point, 'address'),
      headBox,
      head: headNow,
    };
  };
  return {
    quantities,
    view,
    add,
    addPoint,
    addHeadBox,
    addHead,
    addPlumb,
    addStand,
    addOpinion: (of) => void (opinion = of),
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
