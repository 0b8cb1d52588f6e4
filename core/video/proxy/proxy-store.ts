import { mkdir } from 'node:fs/promises';
import { setTimeout as delay } from 'node:timers/promises';
import { say } from '../../model/say.ts';
import { isTaken, writingTrouble } from '../../files/file-trouble.ts';
import { AppError } from '../../model/errors.ts';
import type { DecodePass } from '../../time/settle-index.ts';
import { buildProxy } from './build-proxy.ts';
import type { ProxySource } from './build-proxy.ts';
import type { ClipProxy, ProxySubject } from './clip-proxy.ts';
import type { ProxyBuild } from './copy-work.ts';
import { lockPath } from './proxy-disk.ts';
import { ProxyFile } from './proxy-file.ts';
import { takeProxyLock } from './proxy-lock.ts';
import { LARGEST_SIDE, PROXY_SIDES, proxySize } from './proxy-size.ts';
import type { ProxySide } from './proxy-size.ts';
import { deleteCopy, makeRoom, storedCopies } from './proxy-room.ts';
import type { RoomLimits } from './proxy-room.ts';
import { tableTitle } from './proxy-table.ts';
import { unlessAborted } from '../process/unless-aborted.ts';

export type { ClipProxy, ProxySubject } from './clip-proxy.ts';
export type { ProxySource } from './build-proxy.ts';
export type { ProxyBuild } from './copy-work.ts';

const DEFAULT_LIMITS: RoomLimits = { limitBytes: 6e9, keepFreeBytes: 2e9 };
/** How often to look how far another process has come. */
const FOLLOW_MS = 500;

/** One clip's copy, for all who have it open in this process. */
interface Held {
  readonly file: ProxyFile;
  /** What its pictures are of, as it stands. */
  readonly longest: () => ProxySide;
  readonly loaded: Promise<void>;
  users: number;
  building: { readonly done: Promise<unknown>; readonly stop: AbortController } | null;
}

/** The proxies of a folder. Several processes may use one folder at a time. */
export class ProxyStore {
  readonly #folder: string;
  readonly #limits: RoomLimits;
  readonly #held = new Map<string, Held>();
  readonly #open = new WeakMap<ClipProxy, { readonly subject: ProxySubject; readonly held: Held }>();

  constructor(folder: string, options: Partial<RoomLimits> = {}) {
    this.#folder = folder;
    this.#limits = { ...DEFAULT_LIMITS, ...options };
  }

  /** What there is of a clip's copy, perhaps nothing. It is not deleted for room as long as it is open. */
  async open(subject: ProxySubject): Promise<ClipProxy> {
    const held = this.#hold(subject);
    await held.loaded;
    const { file } = held;
    let released = false;
    const copy: ClipProxy = {
      get width() {
        return proxySize(subject.index, held.longest()).width;
      },
      get height() {
        return proxySize(subject.index, held.longest()).height;
      },
      get count() {
        return file.count;
      },
      get bytes() {
        return file.bytes;
      },
      get complete() {
        return file.result !== null;
      },
      get result() {
        return file.result;
      },
      has: (pts) => !released && file.has(pts),
      read: async (pts) => (released ? null : file.read(pts)),
      release: async () => {
        if (released) return;
        released = true;
        this.#open.delete(copy);
        await this.#letGo(subject.sha256, held);
      },
    };
    this.#open.set(copy, { subject, held });
    return copy;
  }

  /**
   * Makes the pictures that a copy lacks, in one pass over the clip that goes on where an earlier one ended. While
   * another process does the same, its pictures are taken over as they come.
   *
   * Rejects with AppError: `cancelled`; `disk-full` when the disk is, or when all that may be deleted does not make room
   * within the limits (`detail.cause`); `not-writable`; `clip-damaged` when no frame can be decoded; `clip-changed`;
   * `file-unreadable` when the disk garbles what is written; `ffmpeg-failed`, `ffmpeg-missing`, and as `readClipSource`.
   * The pictures that were made stay.
   */
  async build(copy: ClipProxy, source: ProxySource, run: ProxyBuild): Promise<DecodePass> {
    const opened = this.#open.get(copy);
    if (opened === undefined) throw new Error('only a copy that is open here can be built');
    const { subject, held } = opened;
    held.users += 1;
    // Whole copies that turned out not to be what was written while they were.
    let spoilt = 0;
    try {
      for (;;) {
        if (run.signal.aborted) throw new AppError('cancelled', say`Cancelled.`);
        if (held.file.result !== null) return held.file.result;
        if (spoilt > 1) throw garbled(this.#folder);
        if (held.building !== null) await unlessAborted(held.building.done, run.signal);
        else if (await this.#buildOrFollow(subject, held, source, run)) spoilt += 1;
      }
    } finally {
      await this.#letGo(subject.sha256, held);
    }
  }

  /** Deletes a clip's copy, also one that is open or being built here; not one that another process is building. */
  async remove(sha256: string): Promise<void> {
    const held = this.#held.get(checked(sha256));
    held?.building?.stop.abort();
    await held?.building?.done;
    if (await deleteCopy(this.#folder, sha256)) await held?.file.close();
  }

  /**
   * Deletes the copies of all clips but these, as `remove` does. A copy that is opened meanwhile is of a clip that nobody
   * could name yet, and stays.
   */
  async keepOnly(sha256s: ReadonlySet<string>): Promise<void> {
    const openBefore = new Set(this.#held.keys());
    for (const { sha256 } of await storedCopies(this.#folder))
      if (!sha256s.has(sha256) && (openBefore.has(sha256) || !this.#held.has(sha256))) await this.remove(sha256);
  }

  /** What all copies of the folder take on disk. */
  async usedBytes(): Promise<number> {
    return (await storedCopies(this.#folder)).reduce((sum, { bytes }) => sum + bytes, 0);
  }

  /** Returns whether the copy was ours to build and is built. */
  async #buildOrFollow(subject: ProxySubject, held: Held, source: ProxySource, run: ProxyBuild): Promise<boolean> {
    const stop = new AbortController();
    const signal = AbortSignal.any([run.signal, stop.signal]);
    const work = async (): Promise<boolean> => {
      if (await this.#writeUnderLock(subject, held, source, { ...run, signal })) return true;
      await delay(FOLLOW_MS, undefined, { signal }).catch(() => undefined);
      await held.file.load();
      run.onFrame?.(held.file.count, subject.index.frames.length);
      return false;
    };
    const working = work();
    held.building = { done: working.catch(() => undefined), stop };
    try {
      return await working;
    } finally {
      held.building = null;
    }
  }

  async #writeUnderLock(subject: ProxySubject, held: Held, source: ProxySource, run: ProxyBuild): Promise<boolean> {
    let granted = 0;
    const ensureRoom = async (bytes: number): Promise<void> => {
      if (granted < bytes)
        granted = await makeRoom(this.#folder, bytes, this.#limits, (other) => this.#held.has(other));
      granted -= bytes;
    };
    const { file } = held;
    await makeFolder(this.#folder);
    await ensureRoom(1);
    const lock = await takeProxyLock(lockPath(this.#folder, subject.sha256));
    if (lock === null) return false;
    try {
      await file.beginWriting();
      if (file.result !== null) return true;
      const place = { ensureRoom, held: () => lock.held() };
      return await buildProxy(file, subject.index, { ...source, longest: held.longest() }, run, place);
    } finally {
      try {
        await file.endWriting();
      } finally {
        await lock.release();
      }
    }
  }

  #hold({ sha256, index, longest = LARGEST_SIDE }: ProxySubject): Held {
    let held = this.#held.get(sha256);
    if (held === undefined) {
      const larger = PROXY_SIDES.filter((side) => side > longest);
      const titles = larger.map((side) => tableTitle(index, side));
      const file = new ProxyFile(this.#folder, checked(sha256), [tableTitle(index, longest), ...titles]);
      const sides = [longest, ...larger];
      held = {
        ...{ file, loaded: file.load(), users: 0, building: null },
        longest: () => sides[file.which] ?? longest,
      };
      this.#held.set(sha256, held);
    }
    held.users += 1;
    return held;
  }

  async #letGo(sha256: string, held: Held): Promise<void> {
    held.users -= 1;
    if (held.users > 0) return;
    this.#held.delete(sha256);
    await held.file.close();
  }
}

/** It becomes the name of a file. */
function checked(sha256: string): string {
  if (!/^[0-9a-f]{64}$/.test(sha256)) throw new Error(`not a SHA-256: ${sha256}`);
  return sha256;
}

function garbled(folder: string): AppError {
  return new AppError(
    'file-unreadable',
    say`The disk of ${folder} gives back other bytes than were written; check it.`,
    {
      detail: { folder },
    },
  );
}

async function makeFolder(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true }).catch((error: unknown) => {
    if (!isTaken(error)) throw writingTrouble(error, folder);
    const sentence = say`${folder} is a file where a folder is needed; move it away.`;
    throw new AppError('not-writable', sentence, { cause: error, detail: { path: folder } });
  });
}
