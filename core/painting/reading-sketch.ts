import type { Edges } from '../geometry/box.ts';
import type { ArcDrawing } from '../measure/arc/arc-drawing.ts';
import type { PathPart } from '../measure/arc/clubhead-path.ts';
import type { BodyPointId } from '../model/body-points.ts';
import type { BoxShape, PicturePoint } from '../model/mark.ts';
import type { ReadingAspect, ReadingId } from '../model/reading.ts';
import { covering, directionOf, dot, farthestOut, from, gap } from './sketch-places.ts';
import { meetingOf, middle, offset, onNearestEdge, ovalIn } from './sketch-places.ts';

/** One thing that a reading measures by, in picture coordinates. */
export type SketchPart =
  | { readonly kind: 'line'; readonly a: PicturePoint; readonly b: PicturePoint }
  /** The length that is read. */
  | { readonly kind: 'length'; readonly a: PicturePoint; readonly b: PicturePoint }
  /** The angle that is read, between the directions from the vertex to a and to b. */
  | { readonly kind: 'angle'; readonly vertex: PicturePoint; readonly a: PicturePoint; readonly b: PicturePoint }
  | { readonly kind: 'box'; readonly box: BoxShape }
  /** A fitted arc, as places close to one another. */
  | { readonly kind: 'curve'; readonly points: readonly PicturePoint[] }
  /** A place that has no mark of its own on the frame that is shown: one of address, or a fitted one. */
  | { readonly kind: 'place'; readonly at: PicturePoint };

/** Where a reading finds its points, in the picture. Asking for one that it is not made from is a mistake of ours: it throws. */
export interface SketchPlaces {
  readonly here: (point: BodyPointId) => PicturePoint;
  readonly address: (point: BodyPointId) => PicturePoint;
  readonly headBox: () => BoxShape;
  /** The outline of head and cap on the frame that is shown, as it is most likely. */
  readonly head: () => Edges;
  /** True vertical upward in the picture, of length 1. */
  readonly up: PicturePoint;
  /**
   * The place that lies so far from another on the ground, in millimetres toward the target and toward the ball; null
   * without ground marks, or where one of the two is not on the ground.
   */
  readonly onGround: (
    from: PicturePoint,
    by: { readonly target: number; readonly ball: number },
  ) => PicturePoint | null;
  /** Level, toward the target (face on) or the ball (down the line), of length 1. */
  readonly along: PicturePoint;
  /** The clubhead's arc round impact or away from address; null where its path does not tell one. */
  readonly arc: (part: PathPart) => ArcDrawing | null;
  /** The ball at rest, where the reading is made from it. */
  readonly ball: () => PicturePoint | null;
}

type Places = SketchPlaces;
type Where = Places['here'];

/**
 * The lines, lengths and angles that a reading is the number of: what its formula in the catalogue says, as a drawing.
 * Lines of address are carried onto the frame as they lie in the picture, since the camera stands still through a clip. A
 * change shows them beside those of its own frame. Times have none.
 */
export function sketchOf(id: ReadingId, aspect: ReadingAspect, places: Places): readonly SketchPart[] {
  const { here, address, up, along } = places;
  const both = (lines: (where: Where) => readonly SketchPart[]): readonly SketchPart[] =>
    aspect === 'change' ? lines(address).filter(({ kind }) => kind === 'line') : [];
  switch (id) {
    case 'back-incline':
      return leaning(here('tailbone'), here('neck-base'), up);
    case 'neck-over-back': {
      const [tail, neck, head] = [here('tailbone'), here('neck-base'), here('head-centre')];
      const onward = from(neck, directionOf(tail, neck), gap(neck, head));
      return [line(tail, neck), line(neck, onward), line(neck, head), angle(neck, onward, head)];
    }
    case 'shoulder-to-spine':
      return crossing([here('lead-shoulder'), here('trail-shoulder')], [address('tailbone'), address('neck-base')]);
    case 'shoulder-line':
      return levelled(here('trail-shoulder'), here('lead-shoulder'), along);
    case 'hip-line': {
      const lines = (where: Where) => levelled(where('trail-hip'), where('lead-hip'), along);
      return [...lines(here), ...both((where) => [line(where('trail-hip'), where('lead-hip'))])];
    }
    case 'lead-knee': {
      const lines = (where: Where) => bent(where('lead-hip'), where('lead-knee'), where('lead-ankle'));
      return [...lines(here), ...both(lines)];
    }
    case 'trail-knee': {
      const lines = (where: Where) => bent(where('trail-hip'), where('trail-knee'), where('trail-ankle'));
      return [...lines(here), ...both(lines)];
    }
    case 'shaft-incline': {
      const [head, grip] = [here('clubhead'), here('grip-end')];
      const level = from(head, along, -gap(head, grip));
      return [line(head, grip), line(head, level), angle(head, level, grip)];
    }
    case 'side-tilt': {
      const [lead, trail] = [here('lead-hip'), here('trail-hip')];
      return [line(lead, trail), ...leaning(middle(lead, trail), here('neck-base'), up)];
    }
    case 'hip-rise':
      return moved(address('tailbone'), here('tailbone'), up);
    case 'hip-depth':
      return moved(address('tailbone'), here('tailbone'), along);
    case 'head-shift':
      return moved(address('head-centre'), here('head-centre'), along);
    case 'head-rise':
      return moved(address('head-centre'), here('head-centre'), up);
    case 'upper-centre-shift':
      return between(places, 'lead-shoulder', 'trail-shoulder');
    case 'lower-centre-shift':
      return between(places, 'lead-hip', 'trail-hip');
    case 'head-box': {
      const [head, box] = [places.head(), places.headBox()];
      const { edge, out } = farthestOut(head, box);
      return [{ kind: 'box', box }, { kind: 'curve', points: ovalIn(head) }, length(edge, out)];
    }
    case 'head-centre-box': {
      const [head, box] = [here('head-centre'), places.headBox()];
      return [
        { kind: 'box', box },
        { kind: 'length', a: onNearestEdge(head, box), b: head },
      ];
    }
    case 'hands-off-plane':
      return offLine(here('grip-end'), address('grip-end'), address('clubhead'));
    case 'head-off-plane':
      return offLine(here('clubhead'), address('grip-end'), address('clubhead'));
    case 'arc-radius': {
      const arc = places.arc('impact');
      return arc === null ? [] : [...drawn(arc), length(arc.centre, arc.rim)];
    }
    case 'low-point': {
      const [arc, ball] = [places.arc('impact'), places.ball()];
      return arc === null || ball === null ? [] : [...drawn(arc), ...moved(ball, arc.low, along)];
    }
    case 'arc-centre-shift': {
      const [arc, before] = [places.arc('impact'), places.arc('address')];
      if (arc === null || before === null) return [];
      return [...drawn(arc), ...drawn(before), ...moved(before.centre, arc.centre, along)];
    }
    case 'clubhead-speed': {
      const arc = places.arc('impact');
      return arc === null ? [] : drawn(arc);
    }
    case 'lead-flare':
      return flared(places, 'lead-heel', 'lead-toe');
    case 'trail-flare':
      return flared(places, 'trail-heel', 'trail-toe');
    case 'heel-slip':
      return slipped(address('lead-heel'), here('lead-heel'));
    case 'toe-slip':
      return slipped(address('lead-toe'), here('lead-toe'));
    case 'ground-stance':
      return [length(here('trail-heel'), here('lead-heel'))];
    case 'toe-line': {
      const [trail, lead] = [here('trail-toe'), here('lead-toe')];
      return [line(trail, lead), ...guide(trail, places.onGround(trail, { target: GUIDE_MM, ball: 0 }))];
    }
    case 'stance-width':
      return [length(here('lead-ankle'), here('trail-ankle'))];
    case 'elbow-gap':
      return [length(here('lead-elbow'), here('trail-elbow')), line(address('lead-elbow'), address('trail-elbow'))];
    case 'club-radius':
      return [length(here('lead-shoulder'), here('clubhead')), line(address('lead-shoulder'), address('clubhead'))];
    case 'backswing':
    case 'downswing':
    case 'tempo':
      return [];
  }
}

function line(a: PicturePoint, b: PicturePoint): SketchPart {
  return { kind: 'line', a, b };
}

function length(a: PicturePoint, b: PicturePoint): SketchPart {
  return { kind: 'length', a, b };
}

function angle(vertex: PicturePoint, a: PicturePoint, b: PicturePoint): SketchPart {
  return { kind: 'angle', vertex, a, b };
}

/** An arc with its centre and its lowest place. */
function drawn({ curve, centre, low }: ArcDrawing): readonly SketchPart[] {
  return [
    { kind: 'curve', points: curve },
    { kind: 'place', at: centre },
    { kind: 'place', at: low },
  ];
}

/** A line against the vertical through its foot. */
function leaning(foot: PicturePoint, head: PicturePoint, up: PicturePoint): readonly SketchPart[] {
  const upright = from(foot, up, gap(foot, head));
  return [line(foot, head), line(foot, upright), angle(foot, upright, head)];
}

/** A line against the level through its start, on the side to which the line runs. */
function levelled(start: PicturePoint, end: PicturePoint, along: PicturePoint): readonly SketchPart[] {
  const side = dot(offset(start, end), along) < 0 ? -1 : 1;
  const level = from(start, along, side * gap(start, end));
  return [line(start, end), line(start, level), angle(start, level, end)];
}

/** How far the guides on the ground run, millimetres: about a shoe, and a stance. */
const SHOE_MM = 300;
const GUIDE_MM = 500;

/** A foot, and the way from its heel square to the target line; no arc, since the angle is one on the ground. */
function flared({ here, onGround }: Places, heel: BodyPointId, toe: BodyPointId): readonly SketchPart[] {
  const start = here(heel);
  return [line(start, here(toe)), ...guide(start, onGround(start, { target: 0, ball: SHOE_MM }))];
}

function guide(start: PicturePoint, end: PicturePoint | null): readonly SketchPart[] {
  return end === null ? [] : [line(start, end)];
}

function slipped(before: PicturePoint, after: PicturePoint): readonly SketchPart[] {
  return [{ kind: 'place', at: before }, length(before, after)];
}

/** The line of a to b, as far as it is wanted, and the way from it to a place beside it. */
function offLine(at: PicturePoint, a: PicturePoint, b: PicturePoint): readonly SketchPart[] {
  const direction = directionOf(a, b);
  const foot = from(a, direction, dot(offset(a, at), direction));
  return [line(...covering(a, b, foot)), length(foot, at)];
}

function bent(a: PicturePoint, vertex: PicturePoint, b: PicturePoint): readonly SketchPart[] {
  return [line(a, vertex), line(vertex, b), angle(vertex, a, b)];
}

/** The part of a way that runs along `direction`, and the rest of the way. */
function moved(before: PicturePoint, after: PicturePoint, direction: PicturePoint): readonly SketchPart[] {
  const corner = from(before, direction, dot(offset(before, after), direction));
  return [{ kind: 'place', at: before }, length(before, corner), line(corner, after)];
}

function between({ here, address, along }: Places, one: BodyPointId, other: BodyPointId): readonly SketchPart[] {
  const [before, after] = [middle(address(one), address(other)), middle(here(one), here(other))];
  return [line(here(one), here(other)), line(address(one), address(other)), ...moved(before, after, along)];
}

/** Beyond this many times the second line's length from it a meeting place says nothing to the eye. */
const FARTHEST_MEETING = 1.5;

/** Two lines with the angle between their directions where they meet; without it where they meet far off or nowhere. */
function crossing(
  [a, b]: readonly [PicturePoint, PicturePoint],
  [c, d]: readonly [PicturePoint, PicturePoint],
): readonly SketchPart[] {
  const at = meetingOf(a, b, c, d);
  const reach = gap(c, d);
  if (at === null || Math.min(gap(at, c), gap(at, d)) > FARTHEST_MEETING * reach) return [line(a, b), line(c, d)];
  return [
    line(...covering(a, b, at)),
    line(...covering(c, d, at)),
    angle(at, from(at, directionOf(a, b), reach), from(at, directionOf(c, d), reach)),
  ];
}
