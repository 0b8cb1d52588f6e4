import type { PicturePoint } from '../model/mark.ts';
import type { Luma, LumaClip } from './luma.ts';

/** Half the clubhead's size, part of the picture's height. */
const SIZE = 0.012;
/**
 * It is looked for this far from where its speed says, at least, and this part of its way more. A club gets quicker by up to so
 * many heights of the picture, over the square of the way back. Parts of the height.
 */
const NEAR = 0.02;
const OF_WAY = 0.5;
const GETS_QUICKER = 26;
/** Its speed is smoothed and so lags behind it: it goes so many times as far. */
const LAGS = 1.2;
/** A change of less is noise; one of more counts no more than this. Grey values. */
const NOISE = 12;
const MOST = 40;
/** A clubhead fills at least this part of the disc that is looked at, at full change. */
const FILLS = 0.2;
/** At the edge of where it is looked for a patch counts less by this part: shaft and hands are there too. */
const OFF_COSTS = 0.5;
/** Of the new speed so much is taken, of the one before the rest. */
const NEW_SPEED = 0.5;
/** It is off its own place after so many times half its size. */
const OFF_ITSELF = 2.5;

/** Where the clubhead is on a frame. */
export interface ClubheadPlace extends PicturePoint {
  readonly frame: number;
}

/**
 * Follows the clubhead on its way back from the ball. It is the largest patch, near where its speed says, of what is not on the
 * picture without the club. Once it is quick, it is not on the pictures a little before and after either. Frames on which
 * it does not show are left out; it is looked for farther off then.
 *
 * @param ground the picture without the club.
 * @param from its place at rest, about, and the last frame of that.
 * @param back frames that the way back takes, about.
 * @param step frames from one look to the next, >= 1.
 */
export function trackClubhead(
  clip: LumaClip,
  ground: Luma,
  {
    from,
    to,
    back,
    step,
  }: { readonly from: ClubheadPlace; readonly to: number; readonly back: number; readonly step: number },
): readonly ClubheadPlace[] {
  const places: ClubheadPlace[] = [];
  const size = Math.max(3, Math.round(SIZE * clip.height));
  let last = from;
  let speed = { x: 0, y: 0 };
  for (let frame = from.frame; frame <= to; frame += step) {
    const time = frame - last.frame;
    const quick = Math.hypot(speed.x, speed.y);
    const expected = { x: last.x + LAGS * speed.x * time, y: last.y + LAGS * speed.y * time };
    const radius = Math.max(NEAR, GETS_QUICKER * (time / back) ** 2) * clip.height + OF_WAY * quick * time;
    // Slower than this it is still on its own place some frames on, and only the picture without it tells.
    const apart = Math.ceil((OFF_ITSELF * size) / quick);
    const isQuick = apart <= 4 * step && frame - apart >= clip.from && frame + apart < clip.to;
    const others = isQuick ? [ground, clip.at(frame - apart), clip.at(frame + apart)] : [ground];
    const found = largestPatch([clip.at(frame), ...others], clip, { about: expected, radius, size });
    if (found === null) continue;
    if (time > 0)
      speed = {
        x: (1 - NEW_SPEED) * speed.x + (NEW_SPEED * (found.x - last.x)) / time,
        y: (1 - NEW_SPEED) * speed.y + (NEW_SPEED * (found.y - last.y)) / time,
      };
    last = { frame, ...found };
    places.push(last);
  }
  return places;
}

/** The middle of the largest patch that shows on the first of the pictures and on none of the others. */
function largestPatch(
  [now, ...others]: readonly [Luma, ...Luma[]],
  { width, height }: { readonly width: number; readonly height: number },
  { about, radius, size }: { readonly about: PicturePoint; readonly radius: number; readonly size: number },
): PicturePoint | null {
  const reach = radius + size;
  const [left, top] = [Math.max(0, Math.floor(about.x - reach)), Math.max(0, Math.floor(about.y - reach))];
  const wide = Math.min(width - 1, Math.ceil(about.x + reach)) - left + 1;
  const high = Math.min(height - 1, Math.ceil(about.y + reach)) - top + 1;
  if (wide <= 0 || high <= 0) return null;
  const moves = new Float32Array(wide * high);
  for (let y = 0; y < high; y += 1)
    for (let x = 0; x < wide; x += 1) {
      const at = (y + top) * width + x + left;
      let change = MOST + NOISE;
      for (const other of others) change = Math.min(change, Math.abs((now[at] ?? 0) - (other[at] ?? 0)));
      moves[y * wide + x] = Math.max(0, change - NOISE);
    }
  const disc: (readonly [number, number])[] = [];
  for (let y = -size; y <= size; y += 1)
    for (let x = -size; x <= size; x += 1) if (x * x + y * y <= size * size) disc.push([x, y]);
  let best = { worth: FILLS * disc.length * MOST, x: NaN, y: NaN };
  for (let y = 0; y < high; y += 1)
    for (let x = 0; x < wide; x += 1) {
      const off = ((x + left - about.x) ** 2 + (y + top - about.y) ** 2) / (radius * radius);
      if (off > 1) continue;
      let [sum, sumX, sumY] = [0, 0, 0];
      for (const [dx, dy] of disc) {
        const [u, v] = [x + dx, y + dy];
        if (u < 0 || v < 0 || u >= wide || v >= high) continue;
        const value = moves[v * wide + u] ?? 0;
        sum += value;
        sumX += value * u;
        sumY += value * v;
      }
      const worth = sum * (1 - OFF_COSTS * off);
      if (worth > best.worth) best = { worth, x: left + sumX / sum, y: top + sumY / sum };
    }
  return Number.isNaN(best.x) ? null : { x: best.x, y: best.y };
}
