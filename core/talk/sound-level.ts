/** Below this peak nobody speaks: -46 dB of full scale. */
const HEARD_PEAK = 10 ** (-46 / 20);
/** After so long without a word the coach is told, ms. */
const NOTHING_HEARD_MS = 5000;
/** The meter shows from here up to full scale, dB. */
const METER_FLOOR_DB = -54;

/** The largest of samples within -1..1, as 0..1. */
export function peakOf(samples: Float32Array): number {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  return Math.min(1, peak);
}

/** How far a meter is filled, 0 to 1, by a peak: even steps of loudness are even steps of the meter. */
export function meterOf(peak: number): number {
  const db = 20 * Math.log10(Math.max(peak, 1e-6));
  return Math.min(1, Math.max(0, 1 - db / METER_FLOOR_DB));
}

/** Whether a voice has been missing for long. */
export interface Listening {
  /** So many milliseconds with such a peak were heard; answers whether nothing has been heard for too long. */
  heard(peak: number, milliseconds: number): boolean;
}

export function listening(): Listening {
  let quiet = 0;
  return {
    heard(peak, milliseconds) {
      quiet = peak >= HEARD_PEAK ? 0 : quiet + milliseconds;
      return quiet >= NOTHING_HEARD_MS;
    },
  };
}

/** Samples within -1..1 as 16-bit numbers; what lies beyond is cut there. */
export function sixteenBit(samples: Float32Array): Int16Array {
  return Int16Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * 32_767));
}
