/** What the process that looks at files is asked, and what it answers: types only, for both ends. */

export interface ProbeOrder {
  readonly path: string;
  /** Bytes of the file's beginning that are wanted, >= 0. */
  readonly headBytes: number;
}

/** What stands at a path. Links are followed. */
export type StandingKind = 'file' | 'folder' | 'pipe' | 'socket' | 'device';

export interface FileFacts {
  readonly bytes: number;
  /** Time of the last change, milliseconds since 1970. */
  readonly modifiedMs: number;
  /** Bytes that the disk holds of it; null where the file system does not tell. */
  readonly heldBytes: number | null;
  /** The first bytes, as many as were asked for and are there. */
  readonly head: Uint8Array;
}

export type ProbeAnswer =
  | { readonly type: 'file'; readonly facts: FileFacts }
  | { readonly type: 'other'; readonly kind: Exclude<StandingKind, 'file'> }
  /** The system's own code, ENOENT for one. */
  | { readonly type: 'refused'; readonly code: string };
