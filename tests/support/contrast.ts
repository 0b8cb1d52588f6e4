/** Red, green, blue; each 0 to 255. */
export type Rgb = readonly [number, number, number];

/** From "#RRGGBB". */
export function fromHex(colour: string): Rgb {
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new Error(`colour must be #RRGGBB, not ${colour}`);
  const number = Number.parseInt(colour.slice(1), 16);
  return [number >> 16, (number >> 8) & 255, number & 255];
}

/** Relative luminance, 0 to 1 (WCAG 2.2, definition of relative luminance, sRGB). */
export function luminance(colour: Rgb): number {
  const [red, green, blue] = colour.map((level) => {
    const part = level / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
}

/** Contrast ratio, 1 to 21 (WCAG 2.2, definition of contrast ratio). */
export function contrast(one: string | Rgb, other: string | Rgb): number {
  const [a, b] = [one, other].map((colour) => luminance(typeof colour === 'string' ? fromHex(colour) : colour));
  const [low = 0, high = 0] = [a ?? 0, b ?? 0].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

/** What is seen of a colour of `opacity` (0 to 1) over another, as canvases mix them: in sRGB levels. */
export function over(top: Rgb, opacity: number, below: Rgb): Rgb {
  const mix = (i: 0 | 1 | 2) => top[i] * opacity + below[i] * (1 - opacity);
  return [mix(0), mix(1), mix(2)];
}
