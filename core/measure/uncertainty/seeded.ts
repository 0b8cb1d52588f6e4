/**
 * Repeatable "random" numbers: the same seed gives the same list on every machine. The generator is sfc32 from the
 * PractRand suite (C. Doty-Humphrey, public domain), 128 bits of state.
 */
export interface Seeded {
  /** Uniform in (0, 1), both ends excluded. */
  uniform(): number;
  /** Normal with mean 0 and standard deviation 1 (Box and Muller 1958). */
  normal(): number;
}

/** `seed`: any 32-bit integer. */
export function seeded(seed: number): Seeded {
  let a = 0;
  let b = seed | 0;
  let c = 0x2545f491;
  let counter = 1;
  let spare: number | null = null;

  const next = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return sum >>> 0;
  };
  for (let i = 0; i < 16; i += 1) next();

  const uniform = () => (next() + 0.5) / 0x1_0000_0000;
  const normal = () => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    const turn = 2 * Math.PI * uniform();
    spare = radius * Math.sin(turn);
    return radius * Math.cos(turn);
  };
  return { uniform, normal };
}
