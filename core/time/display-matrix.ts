/** How a stored picture is brought upright: first mirrored left to right, then turned clockwise. */
export interface Orientation {
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
}

/** The upper left part of a display matrix: x' = a x + c y, y' = b x + d y, with y pointing down. Any scale. */
export interface DisplayMatrix {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

export const UPRIGHT: Orientation = { turn: 0, mirrored: false };

/** `first`, then `second`. */
export function joinMatrices(first: DisplayMatrix, second: DisplayMatrix): DisplayMatrix {
  return {
    a: first.a * second.a + first.b * second.c,
    b: first.a * second.b + first.b * second.d,
    c: first.c * second.a + first.d * second.c,
    d: first.c * second.b + first.d * second.d,
  };
}

/**
 * The orientation a display matrix asks for (ISO/IEC 14496-12, 6.2.2 and 8.3.2: rows (a b), (c d)). A determinant below
 * 0 means mirrored; angles between quarters go to the nearest; a matrix that flattens the picture counts as upright.
 */
export function orientationOf({ a, b, c, d }: DisplayMatrix): Orientation {
  const determinant = a * d - b * c;
  if (determinant === 0 || !Number.isFinite(determinant)) return UPRIGHT;
  const mirrored = determinant < 0;
  const [x, y] = mirrored ? [-a, -b] : [a, b];
  return { turn: quarterTurn((Math.atan2(y, x) * 180) / Math.PI), mirrored };
}

/** The nearest quarter turn to an angle in degrees, clockwise, any sign. */
export function quarterTurn(degrees: number): Orientation['turn'] {
  const quarters = ((Math.round(degrees / 90) % 4) + 4) % 4;
  return quarters === 1 ? 90 : quarters === 2 ? 180 : quarters === 3 ? 270 : 0;
}
