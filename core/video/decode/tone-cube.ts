import type { HdrCurve } from './picture-filter.ts';

/** Points along each side of the table; between them ffmpeg interpolates. */
export const CUBE_SIZE = 33;

/** Luminance of reference white, cd/m2 (ITU-R BT.2408-7, section 2.1: 203 cd/m2, 58 % PQ, 75 % HLG). */
const REFERENCE_WHITE = 203;
/** Peak of the display that HLG is rendered for, cd/m2, and the system gamma at it (ITU-R BT.2100-2, table 5). */
const HLG_PEAK = 1000;
const HLG_GAMMA = 1.2;

/** Rows of the luminance of BT.2020 primaries (ITU-R BT.2020-2). */
const LUMINANCE_2020 = [0.2627, 0.678, 0.0593] as const;

/** Linear BT.2020 to linear BT.709 (ITU-R BT.2087-0, inverse of its M2). */
const FROM_2020_TO_709 = [
  [1.6605, -0.5876, -0.0728],
  [-0.1246, 1.1329, -0.0083],
  [-0.0182, -0.1006, 1.1187],
] as const;

/** Above this share of white, highlights are pressed together instead of cut off. */
const KNEE = 0.75;
/** The brightest light that still gets its own shade, in shares of reference white. */
const BRIGHTEST = HLG_PEAK / REFERENCE_WHITE;

type Rgb = readonly [number, number, number];

/**
 * A plain, readable conversion of one high dynamic range colour to sRGB: light is computed from the curve, reference
 * white becomes a little less than white, highlights are pressed into the rest, the wider primaries are brought to
 * BT.709. Components within 0..1, both ways. Not a grading: what it must do is show body and club as the eye expects.
 */
export function toneMap(curve: HdrCurve, signal: Rgb): Rgb {
  const light = curve === 'pq' ? eachOf(signal, (e) => pqLight(e) / REFERENCE_WHITE) : hlgLight(signal);
  const brightest = Math.max(...light);
  const pressed = brightest <= 0 ? 0 : press(brightest) / brightest;
  const [r, g, b] = eachOf(light, (component) => component * pressed);
  const [row0, row1, row2] = FROM_2020_TO_709;
  const narrowed: Rgb = [
    row0[0] * r + row0[1] * g + row0[2] * b,
    row1[0] * r + row1[1] * g + row1[2] * b,
    row2[0] * r + row2[1] * g + row2[2] * b,
  ];
  return eachOf(narrowed, srgbSignal);
}

/** The whole table as a .cube file: red varies fastest. */
export function cubeText(curve: HdrCurve): string {
  const lines = [`LUT_3D_SIZE ${CUBE_SIZE}`];
  const at = (step: number): number => step / (CUBE_SIZE - 1);
  for (let b = 0; b < CUBE_SIZE; b += 1)
    for (let g = 0; g < CUBE_SIZE; g += 1)
      for (let r = 0; r < CUBE_SIZE; r += 1) {
        const mapped = toneMap(curve, [at(r), at(g), at(b)]);
        lines.push(mapped.map((component) => component.toFixed(6)).join(' '));
      }
  return lines.join('\n') + '\n';
}

/** cd/m2 of a PQ signal of 0..1 (SMPTE ST 2084; ITU-R BT.2100-2, table 4). */
export function pqLight(signal: number): number {
  const [m1, m2, c1, c2, c3] = [2610 / 16384, (2523 / 4096) * 128, 3424 / 4096, (2413 / 4096) * 32, (2392 / 4096) * 32];
  const root = Math.max(0, signal) ** (1 / m2);
  return 10_000 * (Math.max(root - c1, 0) / (c2 - c3 * root)) ** (1 / m1);
}

/** Light of an HLG signal on a display of 1000 cd/m2, in shares of reference white (ITU-R BT.2100-2, table 5). */
function hlgLight(signal: Rgb): Rgb {
  const [a, b, c] = [0.17883277, 0.28466892, 0.55991073];
  const scene = eachOf(signal, (e) => (e <= 0.5 ? (e * e) / 3 : (Math.exp((e - c) / a) + b) / 12));
  const luminance = LUMINANCE_2020[0] * scene[0] + LUMINANCE_2020[1] * scene[1] + LUMINANCE_2020[2] * scene[2];
  const gain = (HLG_PEAK / REFERENCE_WHITE) * Math.max(0, luminance) ** (HLG_GAMMA - 1);
  return eachOf(scene, (component) => component * gain);
}

/** Below the knee unchanged, above it a smooth curve that reaches 1 at the brightest light. */
function press(light: number): number {
  if (light <= KNEE) return light;
  const room = 1 - KNEE;
  const over = Math.min(light, BRIGHTEST) - KNEE;
  // A hyperbola, with a slope just over 1 at the knee, stretched so that the brightest light lands on 1.
  const most = BRIGHTEST - KNEE;
  return KNEE + (room * over * (1 + most / room)) / (most * (1 + over / room));
}

/** sRGB signal of linear light, cut to 0..1 (IEC 61966-2-1). */
function srgbSignal(light: number): number {
  const cut = Math.min(1, Math.max(0, light));
  return cut <= 0.0031308 ? 12.92 * cut : 1.055 * cut ** (1 / 2.4) - 0.055;
}

function eachOf([r, g, b]: Rgb, change: (component: number) => number): Rgb {
  return [change(r), change(g), change(b)];
}
