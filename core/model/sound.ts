/**
 * How loud a clip is over time, on the clip's own clock. Bin i covers `from` + i x `step` to `from` + (i + 1) x `step`
 * seconds; 255 is the loudest of the clip.
 */
export interface SoundEnvelope {
  /** Seconds. */
  readonly from: number;
  /** Seconds, > 0. */
  readonly step: number;
  readonly peaks: Uint8Array;
}
