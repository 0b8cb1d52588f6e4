/** The brightness of one picture, 0 to 255, row by row from the top left; width x height samples. */
export type Luma = Uint8Array;

/** Pictures of one size, by frame. */
export interface LumaClip {
  readonly width: number;
  readonly height: number;
  /** The first frame that is there, and the one after the last. */
  readonly from: number;
  readonly to: number;
  /** @throws Error outside of `from` to `to` */
  at(frame: number): Luma;
}
