import type { PicturePoint } from '../../core/model/mark.ts';

/** A picture of a surface that nobody photographed: grey values, and where each place of it is on the next pictures. */
export interface WarpedPictures {
  readonly width: number;
  readonly height: number;
  readonly pictures: readonly Uint8Array[];
  /** Where a place of the first picture lies on another one, picture coordinates. */
  at(place: PicturePoint, picture: number): PicturePoint;
  /** Whether the place is covered on that picture by something that passes before it. */
  isCovered(place: PicturePoint, picture: number): boolean;
}

export interface WarpOrder {
  readonly width: number;
  readonly height: number;
  readonly count: number;
  /** Something plain passes over the middle, from the left. */
  readonly covers?: boolean;
}

interface Wave {
  readonly u: number;
  readonly v: number;
  readonly phase: number;
  readonly high: number;
}

/** A surface that is known everywhere: waves of many lengths and directions; no sample of it is ever interpolated. */
const wavesOf = (random: () => number): readonly Wave[] =>
  Array.from({ length: 40 }, () => {
    const [length, turn] = [5 * 16 ** random(), 2 * Math.PI * random()];
    const often = (2 * Math.PI) / length;
    return {
      u: often * Math.cos(turn),
      v: often * Math.sin(turn),
      phase: 2 * Math.PI * random(),
      high: 2 + 8 * random(),
    };
  });

/**
 * Pictures of a surface that is shifted, turned and drawn larger from picture to picture, each with its own light and grain. The
 * truth is the map itself; the surface is worked out at each sample's place.
 */
export function warpedPictures(
  random: () => number,
  { width, height, count, covers = false }: WarpOrder,
): WarpedPictures {
  const between = (least: number, most: number): number => least + (most - least) * random();
  const waves = wavesOf(random);
  const middle = { x: width / 2, y: height / 2 };
  const a = { x: between(-7, 7), y: between(-7, 7), turn: between(-0.03, 0.03), larger: between(-0.015, 0.015) };
  const grain = between(0.5, 3);
  const map = (n: number) => ({ turn: a.turn * n, scale: (1 + a.larger) ** n, x: a.x * n, y: a.y * n });
  const at = (place: PicturePoint, picture: number): PicturePoint => {
    const { turn, scale, x, y } = map(picture);
    const [u, v] = [place.x - middle.x, place.y - middle.y];
    const [cos, sin] = [scale * Math.cos(turn), scale * Math.sin(turn)];
    return { x: middle.x + u * cos - v * sin + x, y: middle.y + u * sin + v * cos + y };
  };
  const edge = (picture: number): number => 40 * picture - 60;
  const pictures = Array.from({ length: count }, (_, picture) => {
    const { turn, scale, x, y } = map(picture);
    const [cos, sin] = [Math.cos(turn) / scale, Math.sin(turn) / scale];
    const light = between(0.95, 1.05);
    const greys = new Float32Array(width * height).fill(128);
    // Along a row of samples the surface is gone along evenly, so each wave turns by the same from sample to sample.
    for (const { u, v, phase, high } of waves) {
      const turned = u * cos - v * sin;
      const [stepCos, stepSin] = [Math.cos(turned), Math.sin(turned)];
      for (let row = 0; row < height; row += 1) {
        const [left, down] = [0.5 - middle.x - x, row + 0.5 - middle.y - y];
        const begin = u * (middle.x + left * cos + down * sin) + v * (middle.y - left * sin + down * cos) + phase;
        let [real, imaginary] = [Math.cos(begin), Math.sin(begin)];
        for (let sample = row * width; sample < (row + 1) * width; sample += 1) {
          greys[sample] = (greys[sample] ?? 0) + high * imaginary;
          const next = real * stepCos - imaginary * stepSin;
          imaginary = real * stepSin + imaginary * stepCos;
          real = next;
        }
      }
    }
    return Uint8Array.from(greys, (grey, sample) => {
      const value = covers && sample % width < edge(picture) ? 90 : grey;
      return Math.min(255, Math.max(0, Math.round(light * value + grain * 2.45 * (random() + random() - 1))));
    });
  });
  return {
    ...{ width, height, pictures, at },
    isCovered: (place, picture) => covers && at(place, picture).x < edge(picture),
  };
}
