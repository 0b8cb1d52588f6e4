import { open, readdir, type FileHandle } from 'node:fs/promises';
import { writingTrouble } from '../files/file-trouble.ts';
import { WAVE_HEADER_BYTES, waveHeader } from '../files/wave-file.ts';
import type { TalkEvent } from '../model/talk.ts';
import { TALK_SAMPLE_RATE, takeFiles, type TakeBegun } from './take-files.ts';

/**
 * Records one take into two files that only grow, so that a program that is killed takes nothing along but what it had not
 * handed over: a WAV file, and what happened as a JSON value a line. `read-takes.ts` reads them, ended or broken off.
 */
export interface TakeRecorder {
  /** Which take of its folder, from 0. */
  readonly take: number;
  /** What was heard next: 16-bit samples of one channel, TALK_SAMPLE_RATE a second. Kept once it resolves. */
  sound(samples: Int16Array): Promise<void>;
  /** What happened next, in the order of time. Kept once it resolves. */
  events(events: readonly TalkEvent[]): Promise<void>;
  /** How long the take is by now, ms: without sound nothing else says so. */
  time(milliseconds: number): Promise<void>;
  /** Ends the take, and notes that it was not broken off. Nothing may be handed over afterwards. */
  end(): Promise<void>;
  /** Lets go of its files and leaves it as one that was broken off. */
  breakOff(): Promise<void>;
}

/**
 * Begins a new take in a folder, which must be there. `begun` is kept with it for whoever finds it broken off.
 * @throws AppError `disk-full`, `not-writable`, also from each of its operations.
 */
export async function beginTake(
  folder: string,
  withSound: boolean,
  begun: TakeBegun = { from: null, thenId: null },
): Promise<TakeRecorder> {
  const take = await freeNumber(folder);
  const files = takeFiles(folder, take);
  const log = await openNew(files.log);
  const wave = withSound ? await openNew(files.sound) : null;
  let soundBytes = 0;
  // One after the other, whoever asks meanwhile: two writes to one file could change places.
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = (work: () => Promise<unknown>): Promise<void> => {
    const done = last.then(work).catch((cause: unknown) => {
      throw writingTrouble(cause, folder);
    });
    last = done.catch(() => undefined);
    return done.then(() => undefined);
  };
  const write = (lines: readonly unknown[]): Promise<void> =>
    inTurn(() => log.appendFile(lines.map((line) => `${JSON.stringify(line)}\n`).join('')));
  const close = async (): Promise<void> => {
    await inTurn(async () => {
      if (wave !== null) {
        await wave.sync();
        await wave.close();
      }
      await log.sync();
      await log.close();
    });
    // The header is told at the end; who reads a take that broke off tells it then.
    if (wave !== null) await inTurn(() => rewriteHeader(files.sound, soundBytes));
  };
  await write([{ begun }]);
  if (wave !== null) await inTurn(() => wave.appendFile(waveHeader(0, TALK_SAMPLE_RATE)));
  return {
    take,
    sound: (samples) =>
      inTurn(async () => {
        if (wave === null) throw new Error('this take was begun without sound');
        await wave.appendFile(new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength));
        soundBytes += samples.byteLength;
      }),
    events: (events) => write(events),
    time: (milliseconds) => write([{ time: milliseconds }]),
    async end() {
      // A full disk takes no note; what was recorded is there all the same.
      await write([{ ended: true }]).catch(() => undefined);
      await close();
    },
    breakOff: close,
  };
}

async function rewriteHeader(path: string, soundBytes: number): Promise<void> {
  const file = await open(path, 'r+');
  try {
    await file.write(waveHeader(soundBytes, TALK_SAMPLE_RATE), 0, WAVE_HEADER_BYTES, 0);
    await file.sync();
  } finally {
    await file.close();
  }
}

async function freeNumber(folder: string): Promise<number> {
  const names = await readdir(folder).catch((cause: unknown) => {
    throw writingTrouble(cause, folder);
  });
  const taken = names.flatMap((name) => {
    const number = /^take-(\d+)\./.exec(name)?.[1];
    return number === undefined ? [] : [Number(number)];
  });
  return Math.max(-1, ...taken) + 1;
}

async function openNew(path: string): Promise<FileHandle> {
  return open(path, 'ax').catch((cause: unknown) => {
    throw writingTrouble(cause, path);
  });
}
