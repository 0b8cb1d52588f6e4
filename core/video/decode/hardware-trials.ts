import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { writeWholeFile } from '../../files/write-whole-file.ts';
import type { ClipIndex } from '../../time/clip-index.ts';
import type { ClipSource } from '../index/clip-source.ts';
import type { Ffmpeg } from '../process/find-ffmpeg.ts';
import { compareDecoder, hardwareChoice, isWorthUsing, listHardware } from './hardware-decoder.ts';
import type { DecoderChoice } from './hardware-decoder.ts';

const FILE = 'decoders.list';
const SOFTWARE = 'software';
/** Kinds of streams that are remembered; the oldest go first. */
const MOST_KINDS = 100;

interface TrialRun {
  readonly ffmpeg: Ffmpeg;
  readonly signal: AbortSignal;
  /** Awaited before each ffmpeg that is started. */
  readonly giveWay?: () => Promise<void>;
  /** What is tried; those that ffmpeg lists when not given. */
  readonly choices?: readonly DecoderChoice[];
}

/**
 * Which hardware decoder of this computer may be used for which kind of stream: one whose pictures were the same as the
 * software's and came sooner. Each kind is tried once. What is known lies in a file of the folder, one line a kind: the
 * decoder's name, a space, the kind. A file that cannot be read or written is as good as none. Nothing here throws.
 */
export class HardwareTrials {
  readonly #path: string;
  #known: Promise<Map<string, string>> | null = null;

  constructor(folder: string) {
    this.#path = join(folder, FILE);
  }

  /** The decoder for a clip, or null for the software. */
  async chosen(ffmpeg: Ffmpeg, source: ClipSource): Promise<DecoderChoice | null> {
    const name = (await this.#read()).get(kindOf(ffmpeg, source));
    return name === undefined || name === SOFTWARE ? null : hardwareChoice(name);
  }

  /** Tries what there is on a clip, unless its kind was tried before. A trial that is broken off counts for nothing. */
  async tryOnce(source: ClipSource, index: ClipIndex, run: TrialRun): Promise<void> {
    const { ffmpeg, signal } = run;
    const kind = kindOf(ffmpeg, source);
    if ((await this.#read()).has(kind)) return;
    try {
      const chosen = await quickest(run.choices ?? (await listHardware(ffmpeg, signal)), source, index, run);
      if (!signal.aborted) await this.#remember(kind, chosen);
    } catch {
      // The clip went, or ffmpeg did: it is tried with the next clip of its kind.
    }
  }

  /** A decoder failed on the way: its kind is decoded by software from now on. */
  async refuse(ffmpeg: Ffmpeg, source: ClipSource): Promise<void> {
    await this.#remember(kindOf(ffmpeg, source), SOFTWARE);
  }

  async #remember(kind: string, name: string): Promise<void> {
    const known = await this.#read();
    known.delete(kind);
    known.set(kind, name);
    for (const oldest of [...known.keys()].slice(0, Math.max(0, known.size - MOST_KINDS))) known.delete(oldest);
    const text = [...known].map(([each, decoder]) => `${decoder} ${each}\n`).join('');
    await writeWholeFile(this.#path, text, { overwrite: true }).catch(() => undefined);
  }

  #read(): Promise<Map<string, string>> {
    this.#known ??= readFile(this.#path, 'utf8')
      .catch(() => '')
      .then((text) => new Map([...text.matchAll(/^(\w+) (.+)$/gm)].map(([, name = '', kind = '']) => [kind, name])));
    return this.#known;
  }
}

/** The name of the quickest that is worth using, else of the software. */
async function quickest(
  choices: readonly DecoderChoice[],
  source: ClipSource,
  index: ClipIndex,
  run: TrialRun,
): Promise<string> {
  let best = { name: SOFTWARE, ms: Infinity };
  for (const choice of choices) {
    if (run.signal.aborted) break;
    const compared = await compareDecoder(choice, source, index, run);
    if (compared.ran && isWorthUsing(compared) && compared.ms < best.ms) best = { name: choice.name, ms: compared.ms };
  }
  return best.name;
}

/** What decides whether a decoder can and may: the program, and how pictures are coded. */
function kindOf(ffmpeg: Ffmpeg, { codec, pixelFormat, storedWidth, storedHeight }: ClipSource): string {
  return `${codec} ${pixelFormat ?? '?'} ${storedWidth}x${storedHeight} ${ffmpeg.version.replaceAll(/\s/g, '_')}`;
}
