import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { createStore } from '../shell/state/store.ts';
import type { Store } from '../shell/state/store.ts';
import type { PictureQuality } from '../../core/model/picture-layout.ts';
import type { CopyState, FramesPortMessage, FromWindow, ToWindow } from '../../electron/frames/contract.ts';
import { BY_ITSELF, createFeedDecoders } from './feed-decoders.ts';

/** The page's end of the frame server. */
export interface FrameFeed {
  /**
   * A frame of a clip as a picture that is the caller's to close. Rejects with the AppError that the program or the frame
   * server answered with, or with the signal's reason.
   */
  picture(clip: string, frame: number, quality: PictureQuality, signal: AbortSignal): Promise<ImageBitmap>;
  /** The same by itself, as for a cell: what stands ready around the frame that a hand moves from is left alone. */
  single(clip: string, frame: number, quality: PictureQuality, signal: AbortSignal): Promise<ImageBitmap>;
  /** A key picture by itself, as small as a strip shows it. Those that are asked for at the same time are made in one go. */
  keyPicture(clip: string, frame: number, signal: AbortSignal): Promise<ImageBitmap>;
  /** The clip is not looked at any more. */
  leave(clip: string): void;
  /** Which frames of a clip have a name: their part of its proxy is made before others. */
  name(clip: string, frames: readonly number[]): void;
  /** Stops the making of a clip's proxy, or lets it go on. */
  setMaking(clip: string, make: boolean): void;
  /** Calls back when the data of a picture has come, before it is decoded; returns how to stop. */
  onArrival(listener: (clip: string, frame: number) => void): () => void;
  /** Tries anew after the frame server stopped for good. */
  startAgain(): void;
  /** Calls back then: what did not come can be asked for again. Returns how to stop. */
  onStartAgain(listener: () => void): () => void;
  /** How far the proxies are, by clip. */
  readonly copies: Store<Readonly<Record<string, CopyState>>>;
}

export interface FrameFeedOptions {
  /** Has the program send a port, which arrives as a message of the page to itself. */
  readonly requestPort: () => Promise<unknown>;
  /** Has the program open the clip, or say why it cannot be. */
  readonly show: (clip: string) => Promise<unknown>;
  /** Calls back when the frame server is not started again by itself. */
  readonly onStopped: (listener: () => void) => unknown;
}

type Asked = Pick<FromWindow & { readonly type: 'want' }, 'clip' | 'frame' | 'quality' | 'use'>;

interface PictureRequest extends Asked {
  /** How often the program was asked to open the clip for it. */
  shown: number;
  readonly resolve: (picture: ImageBitmap) => void;
  readonly reject: (error: unknown) => void;
}

const PORT_MESSAGE: FramesPortMessage = 'baybook:frames-port';
/** After these the program looks closer: the file may have moved, or the frame server may be a new one. */
const LOOK_AGAIN = new Set(['no-such-record', 'clip-moved', 'clip-changed']);
/** A single picture is called off with its clip, which may be opened anew at once. */
const LOOK_AGAIN_SINGLE = new Set([...LOOK_AGAIN, 'cancelled']);
const MOST_LOOKS = 3;
/** The program's message to the frame server and ours travel different ways; ours waits a little, ms. */
const LATER = 30;

export function createFrameFeed(options: FrameFeedOptions): FrameFeed {
  const requests = new Map<number, PictureRequest>();
  const decoders = createFeedDecoders();
  const arrivals = new Set<(clip: string, frame: number) => void>();
  const startsAgain = new Set<() => void>();
  /** Told again to a frame server that is started anew. */
  const named = new Map<string, readonly number[]>();
  const copies = createStore<Readonly<Record<string, CopyState>>>({});
  let port: MessagePort | null = null;
  let requested = false;
  /** It died too often: nothing is asked of it until somebody says so, or the program starts it for another clip. */
  let stopped = false;
  let last = 0;

  window.addEventListener('message', (event: MessageEvent<unknown>) => {
    const [opened] = event.ports;
    if (event.source !== window || event.data !== PORT_MESSAGE || opened === undefined) return;
    port?.close();
    port = opened;
    stopped = false;
    opened.onmessage = ({ data }: MessageEvent<ToWindow>) => hear(data);
    // A frame server that was started anew knows nothing of what was asked before.
    for (const [clip, frames] of named) send({ type: 'named', clip, frames });
    for (const [id, request] of requests) send({ type: 'want', id, ...asked(request) });
  });

  function send(message: FromWindow): void {
    port?.postMessage(message);
    if (port === null) requestPort();
  }

  function requestPort(): void {
    if (requested) return;
    requested = true;
    options.requestPort().catch((error: unknown) => {
      requested = false;
      rejectAll(error);
    });
  }

  function rejectAll(error: unknown): void {
    for (const request of requests.values()) request.reject(error);
    requests.clear();
  }

  options.onStopped(() => {
    stopped = true;
    requested = false;
    port?.close();
    port = null;
    const error = noMorePictures();
    rejectAll(error);
    copies.update((all) => withNoneMade(all, error.message));
  });

  function startAgain(): void {
    stopped = false;
    requestPort();
    for (const listener of startsAgain) listener();
  }

  function hear(message: ToWindow): void {
    if (message.type === 'copy') {
      copies.update((all) => ({ ...all, [message.clip]: message.state }));
      return;
    }
    const request = requests.get(message.id);
    if (request === undefined) return;
    if (message.type === 'none') {
      refused(message.id, request, new AppError(message.code, message.sentence));
      return;
    }
    requests.delete(message.id);
    if (request.use === 'hand') for (const listener of arrivals) listener(request.clip, request.frame);
    const of = request.use === 'hand' ? request.clip : BY_ITSELF;
    decoders.decode(of, message.layout, message.data).then(request.resolve, request.reject);
  }

  function refused(id: number, request: PictureRequest, error: AppError): void {
    const again = request.use === 'hand' ? LOOK_AGAIN : LOOK_AGAIN_SINGLE;
    if (!again.has(error.code) || request.shown >= MOST_LOOKS) {
      requests.delete(id);
      request.reject(error);
      return;
    }
    request.shown += 1;
    options.show(request.clip).then(
      () => setTimeout(() => requests.has(id) && send({ type: 'want', id, ...asked(request) }), LATER),
      (cause: unknown) => {
        requests.delete(id);
        request.reject(cause);
      },
    );
  }

  function ask(wanted: Asked, signal: AbortSignal): Promise<ImageBitmap> {
    return new Promise<ImageBitmap>((resolve, reject) => {
      if (signal.aborted) return reject(signal.reason);
      if (stopped) return reject(noMorePictures());
      const id = (last += 1);
      const drop = (): void => {
        if (requests.delete(id)) send({ type: 'drop', id });
        reject(signal.reason);
      };
      signal.addEventListener('abort', drop, { once: true });
      const settle = (then: () => void): void => {
        signal.removeEventListener('abort', drop);
        then();
      };
      requests.set(id, {
        ...wanted,
        shown: 0,
        resolve(picture) {
          // Dropped while it was decoded: nobody will close it.
          if (signal.aborted) picture.close();
          settle(() => resolve(picture));
        },
        reject: (error) => settle(() => reject(error)),
      });
      send({ type: 'want', id, ...wanted });
    });
  }

  return {
    copies,
    picture: (clip, frame, quality, signal) => ask({ clip, frame, quality, use: 'hand' }, signal),
    single: (clip, frame, quality, signal) => ask({ clip, frame, quality, use: 'cell' }, signal),
    keyPicture: (clip, frame, signal) => ask({ clip, frame, quality: 'proxy', use: 'strip' }, signal),
    leave(clip) {
      decoders.leave(clip);
      if (port !== null) send({ type: 'leave', clip });
    },
    name(clip, frames) {
      named.set(clip, frames);
      if (port !== null) send({ type: 'named', clip, frames });
    },
    onArrival(listener) {
      arrivals.add(listener);
      return () => arrivals.delete(listener);
    },
    startAgain,
    onStartAgain(listener) {
      startsAgain.add(listener);
      return () => startsAgain.delete(listener);
    },
    setMaking: (clip, make) => (stopped ? startAgain() : send({ type: 'copy', clip, make })),
  };
}

/** Copies that were under way are not any more. */
function withNoneMade(all: Readonly<Record<string, CopyState>>, sentence: string): Readonly<Record<string, CopyState>> {
  const entries = Object.entries(all).map(([clip, copy]): [string, CopyState] => [
    clip,
    copy.doing === 'making' || copy.doing === 'waiting' ? { ...copy, doing: 'failed', sentence } : copy,
  ]);
  return Object.fromEntries(entries);
}

function noMorePictures(): AppError {
  return new AppError(
    'pictures-stopped',
    say`The part of Baybook that makes pictures of clips stopped several times and was not started again. Your book is safe.`,
  );
}

function asked({ clip, frame, quality, use }: PictureRequest): Asked {
  return { clip, frame, quality, use };
}
