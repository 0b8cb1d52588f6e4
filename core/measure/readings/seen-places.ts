import { uprightBox } from '../../geometry/box.ts';
import type { Edges, UprightBox } from '../../geometry/box.ts';
import type { GroundPoint } from '../../geometry/ground-marks.ts';
import { swingFrom } from '../../geometry/point.ts';
import type { BodyPointId } from '../../model/body-points.ts';
import type { PicturePoint } from '../../model/mark.ts';
import type { Checkpoint } from '../../model/words.ts';
import type { GroundMap } from '../camera/ground.ts';
import type { Depth } from '../camera/depth-of-point.ts';
import type { ClipLens } from '../camera/lens-of-clip.ts';
import type { CameraStand } from '../camera/stand.ts';
import type { Places } from '../catalogue/entry.ts';
import { valueAt } from '../uncertainty/value-at.ts';
import { headMoved } from './head-outline.ts';

/** Where a point stands among the inputs of a reading. */
export interface PointSlots {
  /** Of its x in the picture; y is the next. */
  readonly at: number;
  /** In space, where the camera's stand is known: of its depth, and of how far it is always taken to lie off. */
  readonly depth: DepthSlot | null;
  readonly taken: number | null;
}

export interface DepthSlot {
  readonly slot: number;
  /** What the camera of the other view does to it, where that tells it; `taken`: slot of how far it is taken to lie off there. */
  readonly told: (Pick<Depth, 'perYaw' | 'perRoll'> & { readonly taken: number | null }) | null;
}

/** Where the edges of a box stand among the inputs, and the depth of what it was drawn round, where the camera's stand is known. */
export interface BoxSlots {
  readonly at: Readonly<Record<keyof Edges, number>>;
  readonly depth: DepthSlot | null;
}

/** Where the head's outline stands among the inputs, and how it moved where it was not drawn here. */
export interface HeadSlots {
  readonly outline: BoxSlots;
  readonly moves: { readonly fills: number | null; readonly widens: number } | null;
}

/** Where everything stands that a reading depends on, filled as it is listed; null what it does not. `first`: of several in a row. */
export interface Slots {
  readonly side: 1 | -1;
  readonly points: ReadonlyMap<Checkpoint, ReadonlyMap<BodyPointId, PointSlots>>;
  stand: { readonly of: CameraStand; readonly first: number } | null;
  /** Scales, yaw and roll of the other view, which tells depths. */
  depthsBy: { readonly scales: readonly number[]; readonly yaw: number; readonly roll: number } | null;
  tilt: number | null;
  lens: { readonly of: ClipLens; readonly first: number } | null;
  ground: { readonly of: GroundMap; readonly first: number } | null;
  box: BoxSlots | null;
  head: HeadSlots | null;
}

/** Place of the pitch among the quantities of a stand. */
const PITCH_AT = 1;

/**
 * Sees lists of values as places; `at` is the checkpoint that `here` means, `asSeen`: as the picture shows them, whatever is known
 * of the camera. A reading asks thousands of times. So the places of one checkpoint are one object, good until the next list, and
 * what a list has in common with the last one is not worked out again: mostly a point is moved, and the camera stays.
 */
export function placesSeen(slots: Slots): (values: readonly number[], at: Checkpoint, asSeen: boolean) => Places {
  const lookOf = whileSame((of: CameraStand, values) => of.look(values));
  const groundOf = whileSame((of: GroundMap, values) => of.at(values));
  const lensOf = whileSame((of: ClipLens, values) => of.at(values));
  const swingOf = whileSame((side: 1 | -1, [tilt = 0]) => swingFrom({ side, tilt }));
  const viewers = new Map<Checkpoint, ReturnType<typeof viewer>>();
  const viewer = (at: Checkpoint) => {
    let values: readonly number[] = [];
    let look: ReturnType<CameraStand['look']> | null = null;
    let straight: ReturnType<ClipLens['at']> | null = null;
    let swing = swingFrom({ side: slots.side, tilt: 0 });
    // The head may be said to fill a part of the very box that it is held against.
    let box: Edges | null = null;
    const slotsOf = (point: BodyPointId, checkpoint: Checkpoint): PointSlots => {
      const found = slots.points.get(checkpoint)?.get(point);
      if (found === undefined) throw new Error(`places: ${point} at ${checkpoint} is not listed by the reading`);
      return found;
    };
    const placed = (slot: number): PicturePoint => ({ x: valueAt(values, slot), y: valueAt(values, slot + 1) });
    const seen = (point: BodyPointId, checkpoint: Checkpoint): PicturePoint => placed(slotsOf(point, checkpoint).at);
    const depthIn = ({ slot, told }: DepthSlot): number => {
      const plain = valueAt(values, slot);
      if (told === null || slots.depthsBy === null) return plain;
      const { scales, yaw, roll } = slots.depthsBy;
      const turned = told.perYaw * valueAt(values, yaw) + told.perRoll * valueAt(values, roll);
      const scale = scales.reduce((product, each) => product * valueAt(values, each), 1);
      return scale * plain + turned + (told.taken === null ? 0 : valueAt(values, told.taken));
    };
    const picture = (point: BodyPointId, checkpoint: Checkpoint): PicturePoint => {
      const { at: slot, depth, taken } = slotsOf(point, checkpoint);
      const off = look === null || taken === null ? null : placed(taken);
      return inSpace(placed(slot), depth, off);
    };
    const inSpace = (at: PicturePoint, depth: DepthSlot | null, off: PicturePoint | null = null): PicturePoint => {
      const place = straight === null ? at : straight(at);
      if (look === null || depth === null) return place;
      return look(off === null ? place : { x: place.x + off.x, y: place.y + off.y }, depthIn(depth));
    };
    const onGround = (point: BodyPointId, checkpoint: Checkpoint): GroundPoint | null => {
      if (slots.ground === null) throw new Error('places: the ground is not listed by the reading');
      const { of, first } = slots.ground;
      return groundOf(of, values, first, of.quantities.length)(picture(point, checkpoint));
    };
    /** Two of its corners lie as deep as what it was drawn round. */
    const boxAt = ({ at: slot, depth }: BoxSlots): Edges => {
      const { x: left, y: top } = inSpace({ x: valueAt(values, slot.left), y: valueAt(values, slot.top) }, depth);
      const { x: right, y: bottom } = inSpace(
        { x: valueAt(values, slot.right), y: valueAt(values, slot.bottom) },
        depth,
      );
      return { left, top, right, bottom };
    };
    const boxSeen = (of: BoxSlots): Edges => {
      if (of !== slots.box) return boxAt(of);
      return (box ??= boxAt(of));
    };
    const headBox = (): UprightBox => {
      if (slots.box === null) throw new Error('places: the head box is not listed by the reading');
      return uprightBox(boxSeen(slots.box), swing);
    };
    const head = (): UprightBox => {
      if (slots.head === null) throw new Error('places: the head is not listed by the reading');
      const { outline, moves } = slots.head;
      const drawn = boxSeen(outline);
      if (moves === null) return uprightBox(drawn, swing);
      const moved = headMoved(drawn, {
        ...{ before: picture('head-centre', 'address'), after: picture('head-centre', at) },
        fills: moves.fills === null ? 1 : valueAt(values, moves.fills),
        widens: valueAt(values, moves.widens),
      });
      return uprightBox(moved, swing);
    };
    const places: Places = {
      here: (point) => swing(picture(point, at)),
      address: (point) => swing(picture(point, 'address')),
      pictureOf: seen,
      groundHere: (point) => onGround(point, at),
      groundAddress: (point) => onGround(point, 'address'),
      headBox,
      head,
    };
    return (next: readonly number[], asSeen: boolean): Places => {
      values = next;
      box = null;
      const { stand, lens, side } = slots;
      look = stand === null || asSeen ? null : lookOf(stand.of, values, stand.first, stand.of.quantities.length);
      straight = lens === null ? null : lensOf(lens.of, values, lens.first, lens.of.quantities.length);
      swing = swingOf(side, [leanOf(slots, values, asSeen)], 0, 1);
      return places;
    };
  };
  return (values, at, asSeen) => {
    const known = viewers.get(at) ?? viewer(at);
    viewers.set(at, known);
    return known(values, asSeen);
  };
}

/** Radians by which the true vertical leans in the picture: as it is marked, and by what the camera's pitch does beside the middle. */
function leanOf({ tilt, stand }: Slots, values: readonly number[], asSeen: boolean): number {
  if (tilt === null) return 0;
  const leans = stand === null || asSeen ? 0 : stand.of.plumbPerPitch * valueAt(values, stand.first + PITCH_AT);
  return valueAt(values, tilt) + leans;
}

/** The same function of `count` values from `first` on, which keeps its last answer as long as these are the same. */
function whileSame<Of, Made>(make: (of: Of, values: readonly number[]) => Made) {
  let last: { readonly of: Of; readonly values: readonly number[]; readonly made: Made } | null = null;
  return (of: Of, values: readonly number[], first: number, count: number): Made => {
    let isSame = last !== null && last.of === of && last.values.length === count;
    for (let i = 0; isSame && i < count; i += 1) isSame = Object.is(last?.values[i], values[first + i]);
    if (last !== null && isSame) return last.made;
    const own = values.slice(first, first + count);
    last = { of, values: own, made: make(of, own) };
    return last.made;
  };
}
