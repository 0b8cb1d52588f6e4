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
/** Runs took too long to tell: it is tried again on another day. */
const LATE = 'late';
/** Then it is the software for good. */
const MOST_TRIES = 3;
/** Kinds of streams that are remembered; the oldest go first. */
const MOST_KINDS = 100;

interface TrialRun {
  readonly ffmpeg: Ffmpeg;
  readonly signal: AbortSignal;
  /** Of the clip that it is tried on. */
  readonly sha256: string;
  /** Awaited before each ffmpeg that is started. */
  readonly giveWay?: () => Promise<void>;
  /** What is tried; those that ffmpeg lists when not given. */
  readonly choices?: readonly DecoderChoice[];
  /** As `compareDecoder`. */
  readonly limitMs?: number;
}

/** What came of the trial of a kind. */
interface Known {
  /** A decoder, `SOFTWARE` or `LATE`. */
  readonly name: string;
  /** How often it was tried, and when last: a day, e.g. 2026-05-12. */
  readonly tries: number;
  readonly day: string;
  /** The clip it was tried on: a trial is forgotten together with it. */
  readonly sha256: string;
}

/**
 * Which hardware decoder of this computer may be used for which kind of stream: one whose pictures were the same as the
 * software's and came sooner. Each kind is tried once, or on three days where the machine was too busy to tell. What is known
 * lies in a file of the folder, one line a kind: decoder, tries, day, clip and kind. A file that cannot be read or written is
 * as good as none. Nothing here throws.
 */
export class HardwareTrials {
  readonly #path: string;
  readonly #today: () => string;
  #known: Promise<Map<string, Known>> | null = null;

  /** `now` in ms since 1970. */
  constructor(folder: string, now: () => number = Date.now) {
    this.#path = join(folder, FILE);
    this.#today = () => new Date(now()).toISOString().slice(0, 10);
  }

  /** The decoder for a clip, or null for the software. */
  async chosen(ffmpeg: Ffmpeg, source: ClipSource): Promise<DecoderChoice | null> {
    const name = (await this.#read()).get(kindOf(ffmpeg, source))?.name ?? SOFTWARE;
    return name === SOFTWARE || name === LATE ? null : hardwareChoice(name);
  }

  /** Tries what there is on a clip, unless its kind was tried before. A trial that is broken off counts for nothing. */
  async tryOnce(source: ClipSource, index: ClipIndex, run: TrialRun): Promise<void> {
    const { ffmpeg, signal, sha256 } = run;
    const kind = kindOf(ffmpeg, source);
    const before = (await this.#read()).get(kind);
    if (before !== undefined && !this.#isDue(before)) return;
    try {
      const name = await quickest(run.choices ?? (await listHardware(ffmpeg, signal)), source, index, run);
      const known = { name, tries: 1 + (before?.tries ?? 0), day: this.#today(), sha256 };
      if (!signal.aborted) await this.#remember(kind, known);
    } catch {
      // The clip went, or ffmpeg did: it is tried with the next clip of its kind.
    }
  }

  /** A decoder failed on the way: its kind is decoded by software from now on. */
  async refuse(ffmpeg: Ffmpeg, source: ClipSource): Promise<void> {
    const kind = kindOf(ffmpeg, source);
    const known = (await this.#read()).get(kind);
    if (known !== undefined) await this.#remember(kind, { ...known, name: SOFTWARE });
  }

  /** Forgets what was tried on other clips than these (SHA-256): their codec and size are nobody's business any more. */
  async keepOnly(sha256s: ReadonlySet<string>): Promise<void> {
    const known = await this.#read();
    for (const [kind, { sha256 }] of known) if (!sha256s.has(sha256)) known.delete(kind);
    await this.#write(known);
  }

  #isDue({ name, tries, day }: Known): boolean {
    return name === LATE && tries < MOST_TRIES && day !== this.#today();
  }

  async #remember(kind: string, of: Known): Promise<void> {
    const known = await this.#read();
    known.delete(kind);
    known.set(kind, of);
    for (const oldest of [...known.keys()].slice(0, Math.max(0, known.size - MOST_KINDS))) known.delete(oldest);
    await this.#write(known);
  }

  /** A line of another make is none of ours, and goes with the next that is written. */
  #read(): Promise<Map<string, Known>> {
    this.#known ??= readFile(this.#path, 'utf8')
      .catch(() => '')
      .then((text) => {
        const lines = [...text.matchAll(/^(\w+) (\d+) (\d{4}-\d\d-\d\d) ([0-9a-f]{64}) (.+)$/gm)];
        return new Map(
          lines.map(([, name = '', tries = '', day = '', sha256 = '', kind = '']) => [
            kind,
            { name, tries: Number(tries), day, sha256 },
          ]),
        );
      });
    return this.#known;
  }

  async #write(known: ReadonlyMap<string, Known>): Promise<void> {
    const text = [...known].map(
      ([kind, { name, tries, day, sha256 }]) => `${name} ${tries} ${day} ${sha256} ${kind}\n`,
    );
    const now = await readFile(this.#path, 'utf8').catch(() => '');
    if (text.join('') !== now)
      await writeWholeFile(this.#path, text.join(''), { overwrite: true }).catch(() => undefined);
  }
}

/** The name of the quickest that is worth using; else the software's, or that it came too late to tell. */
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
    if (!compared.ran && compared.late && best.ms === Infinity) best = { name: LATE, ms: Infinity };
    if (compared.ran && isWorthUsing(compared) && compared.ms < best.ms) best = { name: choice.name, ms: compared.ms };
  }
  return best.name;
}

/** What decides whether a decoder can and may: the program, and how pictures are coded. */
function kindOf(ffmpeg: Ffmpeg, { codec, pixelFormat, storedWidth, storedHeight }: ClipSource): string {
  return `${codec} ${pixelFormat ?? '?'} ${storedWidth}x${storedHeight} ${ffmpeg.version.replaceAll(/\s/g, '_')}`;
}
