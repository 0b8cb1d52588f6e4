import type { ClipIndex } from '../../time/clip-index.ts';
import type { DecodePass } from '../../time/settle-index.ts';
import type { ProxySide } from './proxy-size.ts';

/** A clip by its content: SHA-256 of the file, 64 hex digits in lower case, and its table of frames. */
export interface ProxySubject {
  readonly sha256: string;
  readonly index: ClipIndex;
  /** The longer side that suits the screen, the largest when not given. A copy that is larger is as good. */
  readonly longest?: ProxySide;
}

/** The proxy of one clip, usable while it grows. */
export interface ClipProxy {
  /** Pixels, even; of a copy that another run of the program began, as that made it. */
  readonly width: number;
  readonly height: number;
  /** Pictures that can be read, and their bytes. */
  readonly count: number;
  readonly bytes: number;
  /** Whether no picture is missing. May become false again when one is found to be spoilt. */
  readonly complete: boolean;
  /** What the pass over the clip found, once the copy is complete. */
  readonly result: DecodePass | null;
  has(pts: number): boolean;
  /**
   * One picture as H.264 (Annex B), decodable by itself; the caller owns the memory. Null when it is not there (yet), or
   * is not what was written: the copy is then made anew when it is next built.
   */
  read(pts: number): Promise<Uint8Array | null>;
  /** Lets go of the files; the copy may be deleted from now on. A build under way goes on. */
  release(): Promise<void>;
}
