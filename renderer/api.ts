import type { BaybookBridge, ClipSettled, JobReport, RequestName, Requests } from '../electron/ipc/contract.ts';
import type { SoundEnvelope } from '../core/model/sound.ts';
import type { ErrorCode, ErrorDetail } from '../core/model/errors.ts';
import { AppError } from '../core/model/errors.ts';

declare global {
  interface Window {
    /** Put there by electron/preload.ts. */
    readonly baybook: BaybookBridge;
  }
}

/** Asks the program for something: its answer, or the error it answered with, thrown. */
export async function ask<Name extends RequestName>(
  name: Name,
  input: Requests[Name]['in'],
): Promise<Requests[Name]['out']> {
  const outcome = await window.baybook.request(name, input);
  if (outcome.ok) return outcome.value;
  const { code, message, detail }: { code: ErrorCode; message: string; detail: ErrorDetail } = outcome.error;
  throw new AppError(code, message, { detail });
}

export function onJobReport(listener: (report: JobReport) => void): () => void {
  return window.baybook.onJobReport(listener);
}

export function onClipSettled(listener: (settled: ClipSettled) => void): () => void {
  return window.baybook.onClipSettled(listener);
}

export function pathOfDroppedFile(file: File): string | null {
  return window.baybook.pathOfDroppedFile(file);
}

/** How loud a clip is; null when it has no sound. */
export function soundOf(clipId: string): Promise<SoundEnvelope | null> {
  return ask('clip/sound', { id: clipId });
}

export function giveMemoryBack(): void {
  window.baybook.giveMemoryBack();
}

/** Where the exact picture of a frame is fetched that lies still. */
export function frameUrl(clipId: string, index: number): string {
  return `clip://frame/${clipId}/${String(index)}`;
}

/** Has the program start the frame server, where it does not run, and send the page a port to it. */
export async function connectFrames(): Promise<void> {
  await ask('frames/connect', null);
}
