import { open } from 'node:fs/promises';
import { writeWholeFile } from './write-whole-file.ts';

/**
 * WAV files of one channel with 16-bit samples (RIFF WAVE, format tag 1: Multimedia Programming Interface and Data
 * Specifications 1.0, IBM and Microsoft 1991): a header of 44 bytes, then the samples.
 */
export const WAVE_HEADER_BYTES = 44;
const BYTES_A_SAMPLE = 2;
/** Sizes are 32-bit numbers. */
const MOST_BYTES = 0xffff_ffff - WAVE_HEADER_BYTES;

/** The header of a file with so many bytes of samples, >= 0; more than a header can say are said as the most it can. */
export function waveHeader(soundBytes: number, sampleRate: number): Uint8Array {
  const header = Buffer.alloc(WAVE_HEADER_BYTES);
  const bytes = Math.min(soundBytes, MOST_BYTES);
  header.write('RIFF', 0, 'latin1');
  header.writeUInt32LE(bytes + WAVE_HEADER_BYTES - 8, 4);
  header.write('WAVEfmt ', 8, 'latin1');
  header.writeUInt32LE(16, 16);
  header.writeUInt16LE(1, 20);
  header.writeUInt16LE(1, 22);
  header.writeUInt32LE(sampleRate, 24);
  header.writeUInt32LE(sampleRate * BYTES_A_SAMPLE, 28);
  header.writeUInt16LE(BYTES_A_SAMPLE, 32);
  header.writeUInt16LE(8 * BYTES_A_SAMPLE, 34);
  header.write('data', 36, 'latin1');
  header.writeUInt32LE(bytes, 40);
  return header;
}

/** The whole file as bytes; samples beyond -1..1 are cut there. */
export function waveFile(samples: Float32Array, sampleRate: number): Uint8Array {
  const sound = Int16Array.from(samples, (sample) => Math.round(Math.max(-1, Math.min(1, sample)) * 32_767));
  return Buffer.concat([waveHeader(sound.byteLength, sampleRate), new Uint8Array(sound.buffer)]);
}

/** Writes it, whole or not at all. @throws AppError `file-exists`, `disk-full`, `not-writable`. */
export async function writeWave(path: string, samples: Float32Array, sampleRate: number): Promise<void> {
  await writeWholeFile(path, waveFile(samples, sampleRate));
}

/**
 * Makes the header of a file of ours say what is there, after a recording was broken off. A half sample at the end is cut.
 * @returns how many samples there are.
 */
export async function repairWave(path: string, sampleRate: number): Promise<number> {
  const file = await open(path, 'r+');
  try {
    const { size } = await file.stat();
    const samples = Math.max(0, Math.floor((size - WAVE_HEADER_BYTES) / BYTES_A_SAMPLE));
    await file.truncate(WAVE_HEADER_BYTES + samples * BYTES_A_SAMPLE);
    await file.write(waveHeader(samples * BYTES_A_SAMPLE, sampleRate), 0, WAVE_HEADER_BYTES, 0);
    await file.sync();
    return samples;
  } finally {
    await file.close();
  }
}
