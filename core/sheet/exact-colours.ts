/** As many as an indexed PNG holds. */
const MOST_COLOURS = 256;

/**
 * Puts exact colours back into pixels whose colours were reduced: where the painted pixel has one of them, it is taken.
 * The reduced colours that then no longer fit among 256 are the least used ones; they become their nearest neighbour.
 * @param reduced RGBA of at most 256 colours
 * @param painted RGBA of the same size, before the reduction
 * @param exact at most 256 colours as 0xRRGGBB
 * @returns opaque RGBA of at most 256 colours
 */
export function withExactColours(reduced: Uint8Array, painted: Uint8Array, exact: ReadonlySet<number>): Uint8Array {
  const colours = new Uint32Array(reduced.length / 4);
  const uses = new Map<number, number>();
  for (let i = 0; i < colours.length; i++) {
    const before = colourAt(painted, i);
    const colour = exact.has(before) ? before : colourAt(reduced, i);
    colours[i] = colour;
    uses.set(colour, (uses.get(colour) ?? 0) + 1);
  }
  const inexact = [...uses].filter(([colour]) => !exact.has(colour)).sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  const ranked = [...[...uses.keys()].filter((colour) => exact.has(colour)), ...inexact.map(([colour]) => colour)];
  const kept = ranked.slice(0, MOST_COLOURS);
  const becomes = new Map(ranked.slice(MOST_COLOURS).map((colour) => [colour, nearest(colour, kept)]));

  const pixels = new Uint8Array(reduced.length);
  for (const [i, colour] of colours.entries()) {
    const final = becomes.get(colour) ?? colour;
    pixels[i * 4] = final >> 16;
    pixels[i * 4 + 1] = (final >> 8) & 255;
    pixels[i * 4 + 2] = final & 255;
    pixels[i * 4 + 3] = 255;
  }
  return pixels;
}

function colourAt(rgba: Uint8Array, pixel: number): number {
  return ((rgba[pixel * 4] ?? 0) << 16) | ((rgba[pixel * 4 + 1] ?? 0) << 8) | (rgba[pixel * 4 + 2] ?? 0);
}

/** By distance in RGB, which is enough for colours that are used least. */
function nearest(colour: number, others: readonly number[]): number {
  const apart = (other: number) =>
    ((colour >> 16) - (other >> 16)) ** 2 +
    (((colour >> 8) & 255) - ((other >> 8) & 255)) ** 2 +
    ((colour & 255) - (other & 255)) ** 2;
  return others.reduce((best, other) => (apart(other) < apart(best) ? other : best), others[0] ?? colour);
}
