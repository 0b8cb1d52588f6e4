import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import type { ErrorCode } from '../../core/model/errors.ts';
import type { HardwareTrials } from '../../core/video/decode/hardware-trials.ts';
import type { Ffmpeg } from '../../core/video/process/find-ffmpeg.ts';
import type { ProxyStore } from '../../core/video/proxy/proxy-store.ts';
import type { WindowPicture } from '../../core/video/decode/frame-window.ts';
import type { FromWindow, ServedFacts, ToProgram, ToWindow } from './contract.ts';
import { CopyMaker, LOOKED_AT } from './copy-maker.ts';
import type { Copying } from './copy-maker.ts';
import { ServedClip } from './served-clip.ts';

/** Where messages to a page go. */
export type WindowPort = (message: ToWindow) => void;

/** How often the making of a copy looks whether the picture it made way for has come, ms. */
const GIVE_WAY_LOOK = 15;

/**
 * Answers requests for pictures and keeps the clips they are of. Knows no Electron: messages come in as calls and go out
 * through the ports it was given.
 */
export class FrameDesk {
  readonly #clips = new Map<string, ServedClip>();
  readonly #makers: CopyMaker;
  readonly #program: (message: ToProgram) => void;
  #window: WindowPort | null = null;
  /** No clip is looked at; those whose copy is not being made are let go. */
  #resting = false;
  /** Requests under way of the present page, by id. */
  readonly #requests = new Map<number, AbortController>();

  /** `decoders`: which hardware may decode; the software alone when not given. */
  constructor(copies: ProxyStore, program: (message: ToProgram) => void, decoders?: HardwareTrials) {
    this.#program = program;
    this.#makers = new CopyMaker({
      copies,
      ...(decoders === undefined ? {} : { decoders }),
      giveWay: () => this.#giveWay(),
      tell: (clip, state) => {
        this.#window?.({ type: 'copy', clip, state });
        if (this.#resting) void this.#letGo();
      },
      decoded: (clip, pass) => program({ type: 'decoded', clip, pass }),
    });
  }

  /** A page came; requests of the page before it are dropped. */
  connect(window: WindowPort): void {
    for (const request of this.#requests.values()) request.abort();
    this.#requests.clear();
    this.#window = window;
    this.#makers.tellAll();
  }

  /** Opens a clip, or opens it anew with other facts. */
  async open(clip: string, facts: ServedFacts, ffmpeg: Ffmpeg, copying: Copying = LOOKED_AT): Promise<void> {
    this.#resting = false;
    const before = this.#clips.get(clip);
    if (before !== undefined && sameFile(before.facts, facts)) {
      if (!copying.glance) this.#makers.attend(clip);
      return;
    }
    this.#clips.set(clip, new ServedClip(facts, ffmpeg, () => this.#makers.copyOf(clip), copying.longest));
    if (before !== undefined) await Promise.all([before.close(), this.#makers.close(clip)]);
    await this.#makers.open(clip, facts, ffmpeg, copying);
  }

  /** Resolves when nothing reads the clip's file any more. */
  async close(clip: string): Promise<void> {
    const served = this.#clips.get(clip);
    this.#clips.delete(clip);
    await Promise.all([served?.close(), this.#makers.close(clip)]);
  }

  /** Nobody looks at any clip for now: each is let go once its copy is made. */
  async rest(): Promise<void> {
    this.#resting = true;
    await Promise.all([...this.#clips.values()].map((clip) => clip.rest()));
    await this.#letGo();
  }

  async #letGo(): Promise<void> {
    for (const clip of [...this.#clips.keys()]) {
      // A clip may be opened while another one closes.
      if (!this.#resting) return;
      if (this.#makers.isBusy(clip)) continue;
      this.#program({ type: 'let-go', clip });
      await this.close(clip);
    }
    if (this.#resting && this.#clips.size === 0) this.#program({ type: 'idle' });
  }

  async end(): Promise<void> {
    const clips = [...this.#clips.values()];
    this.#clips.clear();
    await Promise.all([...clips.map((clip) => clip.close()), this.#makers.end()]);
  }

  /** What a page says; a message that is none of ours is passed over. */
  hear(message: FromWindow): void {
    if (message.type === 'want') void this.#answer(message);
    else if (message.type === 'drop') {
      this.#requests.get(message.id)?.abort();
      this.#requests.delete(message.id);
    } else if (message.type === 'leave') void this.#clips.get(message.clip)?.rest();
    else if (message.type === 'named') this.#makers.name(message.clip, message.frames);
    else this.#makers.setMaking(message.clip, message.make);
  }

  async #answer({ id, clip, frame, quality, use }: FromWindow & { readonly type: 'want' }): Promise<void> {
    const window = this.#window;
    const control = new AbortController();
    this.#requests.set(id, control);
    try {
      const served = this.#clips.get(clip);
      if (served === undefined) throw new AppError('no-such-record', say`This clip is not open.`);
      // One small picture by itself is a glance; all else is looking.
      if (use === 'hand' || quality === 'sharp') this.#makers.lookCloser(clip);
      if (use === 'hand') this.#makers.point(clip, frame);
      else await this.#makers.opened(clip);
      const pictureOf = (of: ServedClip): Promise<WindowPicture> => {
        if (use === 'strip') return of.onStrip(frame, control.signal);
        return use === 'cell' ? of.single(frame, quality, control.signal) : of.picture(frame, quality, control.signal);
      };
      const { layout, data } = await pictureOf(served).catch((cause: unknown) => {
        // Called off, since the clip's pictures come from another file now.
        const now = this.#clips.get(clip);
        if (now === undefined || now === served) throw cause;
        return pictureOf(now);
      });
      // A port would copy all of a shared buffer for the part that is meant.
      const own = data.byteLength === data.buffer.byteLength ? data : data.slice();
      if (!control.signal.aborted) window?.({ type: 'picture', id, layout, data: own });
    } catch (cause) {
      if (control.signal.aborted) return;
      if (cause instanceof AppError) window?.({ type: 'none', id, code: cause.code, sentence: cause.message });
      else {
        window?.({ type: 'none', id, code: INTERNAL, sentence: say`This picture could not be made; try again.` });
        const stack = cause instanceof Error ? (cause.stack ?? cause.message) : String(cause);
        this.#program({ type: 'fault', what: `${quality} picture`, stack });
      }
    } finally {
      if (this.#requests.get(id) === control) this.#requests.delete(id);
    }
  }

  async #giveWay(): Promise<void> {
    while ([...this.#clips.values()].some((clip) => clip.busy))
      await new Promise((resolve) => setTimeout(resolve, GIVE_WAY_LOOK));
  }
}

const INTERNAL: ErrorCode = 'internal';

function sameFile(a: ServedFacts, b: ServedFacts): boolean {
  const file = a.path === b.path && a.bytes === b.bytes && a.modifiedMs === b.modifiedMs && a.sha256 === b.sha256;
  return (
    file && a.first === b.first && a.index.frames.length === b.index.frames.length && a.index.frames.every(sameFrame)
  );
  function sameFrame({ pts }: { readonly pts: number }, place: number): boolean {
    return pts === b.index.frames[place]?.pts;
  }
}
