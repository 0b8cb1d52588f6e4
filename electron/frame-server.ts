import { MessageChannelMain, utilityProcess } from 'electron';
import type { UtilityProcess, WebContents } from 'electron';
import type { Ffmpeg } from '../core/video/process/find-ffmpeg.ts';
import { HardwareTrials } from '../core/video/decode/hardware-trials.ts';
import type { ProxySide } from '../core/video/proxy/proxy-size.ts';
import { ProxyStore } from '../core/video/proxy/proxy-store.ts';
import type { FromProgram, ServedFacts, ToProgram } from './frames/contract.ts';
import { FRAMES_PORT_CHANNEL } from './ipc/channels.ts';

export interface FrameServerOptions {
  /** The built entry of the process. */
  readonly entry: string;
  /** Where proxies are kept. */
  readonly folder: string;
  /** The longer side of a copy's pictures that suits the screens there are now. */
  readonly longest: () => ProxySide;
  /** The page that pictures go to, or null while there is none. */
  readonly window: () => WebContents | null;
  readonly onDecoded: (message: ToProgram & { readonly type: 'decoded' }) => void;
  readonly onFault: (what: string, cause: unknown) => void;
  /** It died too often to be started again by itself; the next clip that is opened, or a page that asks for a port, tries. */
  readonly onStopped: () => void;
}

/** How long it may take to let go of its files at the end, ms, before it is ended. */
const END_LIMIT = 3000;
/** After so many deaths within a minute it is not started again by itself. */
const MOST_DEATHS = 5;
const DEATH_WINDOW = 60_000;

/**
 * The program's end of the frame server: has a process stand ready, tells it which clips are open, gives the page a port to
 * it, and starts it again should it die; the page then asks anew for what it still wants.
 */
export class FrameServer {
  readonly #options: FrameServerOptions;
  #process: UtilityProcess | null = null;
  readonly #open = new Map<
    string,
    { readonly facts: ServedFacts; readonly ffmpeg: Ffmpeg; readonly glance: boolean }
  >();
  /** What was asked of a process and is not answered yet. */
  readonly #asked = new Map<number, { readonly of: UtilityProcess; readonly done: () => void }>();
  #lastId = 0;
  #deaths: number[] = [];
  #connected = false;
  #ended = false;
  #resting = false;
  /** Whether the process has had a clip: it is not as small as a fresh one any more. */
  #used = false;

  constructor(options: FrameServerOptions) {
    this.#options = options;
  }

  /** Starts the process, so that the first picture need not wait for it. */
  prepare(): void {
    if (this.#process === null && !this.#ended) this.#start();
  }

  /** Opens a clip for pictures (at a glance: for a few, without a copy being made), or tells that its file or frames are others now. */
  open(clip: string, facts: ServedFacts, ffmpeg: Ffmpeg, glance = false): void {
    if (this.#ended) return;
    this.#resting = false;
    const isGlance = glance && this.#open.get(clip)?.glance !== false;
    this.#open.set(clip, { facts, ffmpeg, glance: isGlance });
    this.#used = true;
    if (this.#process === null) this.#start();
    else this.#post({ type: 'open', clip, facts, ffmpeg, glance: isGlance, longest: this.#options.longest() });
  }

  /** Whether pictures of the clip are wanted. */
  has(clip: string): boolean {
    return this.#open.has(clip);
  }

  /** Resolves when nothing reads the clip's file any more. */
  async close(clip: string): Promise<void> {
    if (!this.#open.delete(clip) || this.#process === null) return;
    await this.#answered(this.#process, (id) => ({ type: 'close', clip, id }));
  }

  async closeAll(): Promise<void> {
    await Promise.all([...this.#open.keys()].map((clip) => this.close(clip)));
  }

  /**
   * Deletes the proxies of all clips but these (SHA-256), and what was learnt of decoders on others: by the process while it
   * runs, for it holds some open.
   */
  async keepOnly(sha256s: ReadonlySet<string>): Promise<void> {
    const { folder } = this.#options;
    if (this.#process === null)
      await Promise.all([new ProxyStore(folder).keepOnly(sha256s), new HardwareTrials(folder).keepOnly(sha256s)]);
    else await this.#answered(this.#process, (id) => ({ type: 'keep-only', sha256s, id }));
  }

  /** Nobody looks at any clip for now. Once the copies under way are made, a fresh process takes the place of this one. */
  rest(): void {
    if (!this.#used) return;
    this.#resting = true;
    this.#post({ type: 'rest' });
  }

  /** Gives the page a port of its own; an earlier one falls silent. */
  connect(): void {
    this.#connected = true;
    if (this.#ended) return;
    if (this.#process === null) this.#start();
    else this.#sendPort();
  }

  /** Ends the process; no clip can be opened any more. */
  async end(): Promise<void> {
    this.#ended = true;
    const child = this.#process;
    if (child === null) return;
    await new Promise<void>((resolve) => {
      const limit = setTimeout(() => child.kill(), END_LIMIT);
      child.once('exit', () => {
        clearTimeout(limit);
        resolve();
      });
      this.#post({ type: 'end' });
    });
  }

  #start(): void {
    const child = utilityProcess.fork(this.#options.entry, [this.#options.folder], {
      serviceName: 'Baybook frames',
      stdio: 'inherit',
    });
    this.#process = child;
    child.on('message', (message: ToProgram) => this.#hear(message));
    child.once('exit', (code) => this.#gone(child, code));
    const longest = this.#options.longest();
    for (const [clip, entry] of this.#open) this.#post({ type: 'open', clip, longest, ...entry });
    if (this.#connected) this.#sendPort();
  }

  #sendPort(): void {
    const window = this.#options.window();
    if (window === null || window.isDestroyed()) return;
    const { port1, port2 } = new MessageChannelMain();
    this.#post({ type: 'connect' }, [port1]);
    window.postMessage(FRAMES_PORT_CHANNEL, null, [port2]);
  }

  #hear(message: ToProgram): void {
    if (message.type === 'decoded') this.#options.onDecoded(message);
    else if (message.type === 'let-go') {
      // Opened again since then: the server hears of that after what it said here.
      if (this.#resting) this.#open.delete(message.clip);
    } else if (message.type === 'idle') {
      if (this.#resting) this.#endIdle();
    } else if (message.type === 'fault') this.#options.onFault(message.what, message.stack);
    else {
      this.#asked.get(message.id)?.done();
      this.#asked.delete(message.id);
    }
  }

  #endIdle(): void {
    const child = this.#process;
    if (child === null) return;
    this.#process = null;
    this.#used = false;
    // Not before it is gone: two would be in memory at a time, and both at the folder of the copies.
    child.once('exit', () => this.prepare());
    child.postMessage({ type: 'end' } satisfies FromProgram);
  }

  #gone(child: UtilityProcess, code: number): void {
    for (const [id, { of, done }] of this.#asked) {
      if (of !== child) continue;
      this.#asked.delete(id);
      done();
    }
    if (this.#process !== child) return;
    this.#process = null;
    if (this.#ended) return;
    this.#options.onFault('frame server', new Error(`it ended by itself with code ${code}`));
    const now = performance.now();
    this.#deaths = [...this.#deaths.filter((at) => now - at < DEATH_WINDOW), now];
    if (this.#deaths.length < MOST_DEATHS) this.#start();
    else this.#options.onStopped();
  }

  /** Asks a process for something, and resolves when it is done or the process is gone. */
  async #answered(of: UtilityProcess, message: (id: number) => FromProgram): Promise<void> {
    const id = (this.#lastId += 1);
    await new Promise<void>((done) => {
      this.#asked.set(id, { of, done });
      of.postMessage(message(id));
    });
  }

  #post(message: FromProgram, ports: Electron.MessagePortMain[] = []): void {
    this.#process?.postMessage(message, ports);
  }
}
