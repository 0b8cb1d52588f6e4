import type { BodyPointId } from '../model/body-points.ts';
import type { FrameMarks } from '../model/mark.ts';
import type { Box } from './box.ts';
import { FEWEST_POINTS, LOWER, MARGIN, UPPER } from './crop.ts';

/** A clip of which something is shown, with what is marked on the frames that are. */
export interface ShownClip {
  readonly frames: readonly FrameMarks[];
  /** Pixels, >= 1. */
  readonly width: number;
  readonly height: number;
}

/** The width to height that a crop may have: it is widened or heightened to come between, as far as the pictures reach. */
export interface AspectRange {
  readonly narrowest: number;
  readonly widest: number;
}

/** Lengths of one player, in parts of the height from upper body to ground. */
interface Window {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A crop's edges are whole multiples of this, so that sums of them are exact. */
const GRAIN = 1 / 256;

/**
 * A part of each picture with the player equally large in all, at the same place as far as the pictures reach, and of one width to height: so that
 * what lies side by side can be compared by eye. Nothing that is marked is cut off while its picture has it. null where too few body points
 * are placed in all of them to say how large the player is.
 */
export function cropsAlike(clips: readonly ShownClip[], aspect: AspectRange): readonly Box[] | null {
  const bodies = clips.map((clip) => bodyOf(clip, pointsOfAll(clips)));
  const known = bodies.filter((body) => body !== null);
  if (known.length === 0 || known.length < bodies.length) return null;
  const needed = known.reduce<Window>((all, { window }) => around(all, window), known[0]?.window ?? NOTHING);
  const room = (side: 'width' | 'height'): number =>
    Math.min(...clips.map((clip, index) => clip[side] / (known[index]?.size ?? 1)));
  const height = Math.min(
    Math.max(needed.bottom - needed.top, (needed.right - needed.left) / aspect.widest),
    room('height'),
  );
  const width = Math.min(Math.max(needed.right - needed.left, height * aspect.narrowest), room('width'));
  const middle = (needed.left + needed.right) / 2;
  // What is added above and below keeps the feet near the lower edge.
  const top = needed.bottom - height;
  return clips.map((clip, index) => {
    const { size, x, y } = known[index] ?? { size: 1, x: 0, y: 0 };
    const [across, down] = [onGrain(width * size), onGrain(height * size)];
    return {
      x: onGrain(between(x + (middle - width / 2) * size, clip.width - across)),
      y: onGrain(between(y + top * size, clip.height - down)),
      width: across,
      height: down,
    };
  });
}

const NOTHING: Window = { left: 0, right: 0, top: 0, bottom: 0 };

function around(one: Window, other: Window): Window {
  return {
    left: Math.min(one.left, other.left),
    right: Math.max(one.right, other.right),
    top: Math.min(one.top, other.top),
    bottom: Math.max(one.bottom, other.bottom),
  };
}

/** Body points that every clip has on one of its frames. */
function pointsOfAll(clips: readonly ShownClip[]): readonly BodyPointId[] {
  return [...UPPER, ...LOWER].filter((id) =>
    clips.every(({ frames }) => frames.some(({ points }) => points[id] !== undefined)),
  );
}

/** How large the player is and where, in pixels; and the room of all that is placed with a margin, in parts of that size. */
function bodyOf({ frames }: ShownClip, common: readonly BodyPointId[]) {
  const has = (ids: readonly BodyPointId[]) => common.some((id) => ids.includes(id));
  const all = frames.flatMap(({ points }) => Object.values(points));
  if (all.length < FEWEST_POINTS || !has(UPPER) || !has(LOWER)) return null;
  const measured = frames.flatMap(({ points }) => common.flatMap((id) => points[id] ?? []));
  const [high, low] = [Math.min(...measured.map(({ y }) => y)), Math.max(...measured.map(({ y }) => y))];
  const size = low - high;
  if (!(size > 0)) return null;
  const across = measured.map((point) => point.x);
  const x = (Math.min(...across) + Math.max(...across)) / 2;
  const [xs, ys] = [all.map((point) => (point.x - x) / size), all.map((point) => (point.y - low) / size)];
  const margin = MARGIN * (Math.max(...ys) - Math.min(...ys));
  const window: Window = {
    left: Math.min(...xs) - margin,
    right: Math.max(...xs) + margin,
    top: Math.min(...ys) - margin,
    bottom: Math.max(...ys) + margin,
  };
  return { size, x, y: low, window };
}

const onGrain = (length: number): number => Math.floor(length / GRAIN) * GRAIN;
const between = (place: number, most: number): number => Math.max(0, Math.min(place, most));
