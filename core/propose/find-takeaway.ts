import type { PicturePoint } from '../model/mark.ts';
import type { ClubStart } from './club-start.ts';
import { medianPicture } from './ground-picture.ts';
import type { Luma, LumaClip } from './luma.ts';
import { findShaftEnd } from './shaft-at-rest.ts';
import { shaftFrom } from './shaft-line.ts';
import { trackClubhead, type ClubheadPlace } from './track-clubhead.ts';

/** From one look to the next, part of the way back. */
const STEP = 1 / 40;
/** The club is high up over this last part of the way back; so many of its pictures tell what lies behind it before. */
const HIGH = 0.5;
const PICTURES = 9;
/** Before the clubhead has risen by so much the shaft is not level; part of the picture's height. */
const RISEN = 0.08;
/** A shaft that turns over in plain sight is near to level at two looks, no farther apart than so many: as a sine, and looks. */
const FLAT = 0.42;
const NEXT = 2;
/** A takeaway lies within these parts of the way back, and the clubhead is seen on this part of the looks before it. */
const WITHIN = { from: 0.15, to: 0.7 } as const;
const SEEN = 0.8;

/** When the shaft is level on the way back. */
export interface Takeaway {
  readonly frame: number;
  readonly sure: boolean;
}

/**
 * The first frame on the way back with the shaft level. The clubhead is followed from the ball, and the shaft is the line that
 * goes from it: up to the hands before, down to them after. Down the line it points at the camera then and is not seen; there it
 * is level where the clubhead is as high as the lower end of the hands at address: they hardly rise until then, and the
 * clubhead, nearer to the camera, is seen a little lower. Null where neither tells.
 */
export function findTakeaway(
  clip: LumaClip,
  ball: PicturePoint,
  { start, top }: { readonly start: ClubStart; readonly top: number },
): Takeaway | null {
  const back = top - start.frame;
  const high = Array.from({ length: PICTURES }, (_, at) => Math.round(top - (HIGH * back * at) / (PICTURES - 1)));
  const ground = medianPicture(clip, high);
  const step = Math.max(1, Math.round(STEP * back));
  const to = start.frame + Math.round(WITHIN.to * back);
  const places = trackClubhead(clip, ground, { from: { ...ball, frame: start.frame }, to, back, step });
  const [head] = places;
  if (head === undefined) return null;
  const isSeen = (frame: number): boolean => {
    const looks = (frame - start.frame) / step;
    const seen = places.filter((place) => place.frame <= frame).length;
    return start.clear && seen >= SEEN * looks && frame >= start.frame + WITHIN.from * back;
  };
  const turned = turnOver(clip, { ground, places, above: head.y - RISEN * clip.height, near: NEXT * step });
  if (turned !== null) return { frame: turned, sure: isSeen(turned) };
  const end = findShaftEnd(clip.at(start.frame), ground, head, clip);
  const raised = end === null ? null : crossing(places, end.y);
  return raised === null ? null : { frame: raised, sure: isSeen(raised) };
}

interface Looks {
  readonly ground: Luma;
  readonly places: readonly ClubheadPlace[];
  /** Before the clubhead is so high in the picture the shaft is not looked at. */
  readonly above: number;
  /** Frames from a look to the next that still belong together. */
  readonly near: number;
}

/** The first frame on which the shaft goes level or down from the clubhead, where it turns over in plain sight; else null. */
function turnOver(clip: LumaClip, { ground, places, above, near }: Looks): number | null {
  let before: { readonly frame: number; readonly rise: number } | null = null;
  for (const place of places) {
    const angle = place.y > above ? null : shaftFrom(clip.at(place.frame), ground, place, clip);
    if (angle === null) continue;
    // 1: straight up to the hands, -1: straight down to them.
    const rise = Math.sin((angle * Math.PI) / 180);
    const isNext = before !== null && place.frame - before.frame <= near;
    if (before !== null && isNext && before.rise > 0 && before.rise < FLAT && rise <= 0 && rise > -FLAT)
      return Math.ceil(before.frame + (before.rise / (before.rise - rise)) * (place.frame - before.frame));
    before = { frame: place.frame, rise };
  }
  return null;
}

/** The first frame with the clubhead as high as `level`, between two places by their mean speed; null: it never is. */
function crossing(places: readonly ClubheadPlace[], level: number): number | null {
  for (let at = 1; at < places.length; at += 1) {
    const [before, after] = [places[at - 1], places[at]];
    if (before === undefined || after === undefined || after.y > level) continue;
    const part = before.y === after.y ? 1 : (before.y - level) / (before.y - after.y);
    return Math.ceil(before.frame + Math.max(0, part) * (after.frame - before.frame));
  }
  return null;
}
