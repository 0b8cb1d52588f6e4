import type {
  BaybookBridge,
  ClipSettled,
  ErrorFacts,
  JobReport,
  RequestName,
  Requests,
} from '../electron/ipc/contract.ts';
import type { SoundEnvelope } from '../core/model/sound.ts';
import { AppError } from '../core/model/errors.ts';

declare global {
  interface Window {
    /** Put there by electron/preload.ts. */
    readonly baybook: BaybookBridge;
  }
}

/** What a coach has put in, in one request or two after each other; the window waits for them before it closes. */
const PUTTING_IN: ReadonlySet<RequestName> = new Set([
  ...(['student/add', 'student/change', 'lesson/add', 'lesson/change', 'swing/add'] as const),
  ...(['bin/move', 'bin/put-back', 'bin/empty', 'repeat/add', 'repeat/remove', 'goals/reset'] as const),
  ...(['corrections/forget'] as const),
]);
const underWay = new Set<Promise<unknown>>();

/** Settles when nothing that a coach has put in is under way any more. */
export async function settleRequests(): Promise<void> {
  while (underWay.size > 0) {
    await Promise.allSettled(underWay);
    // What follows on an answer is asked by now.
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/** Asks the program for something: its answer, or the error it answered with, thrown. */
export async function ask<Name extends RequestName>(
  name: Name,
  input: Requests[Name]['in'],
): Promise<Requests[Name]['out']> {
  const asked = window.baybook.request(name, input);
  if (PUTTING_IN.has(name)) {
    underWay.add(asked);
    void asked.finally(() => underWay.delete(asked));
  }
  const outcome = await asked;
  if (outcome.ok) return outcome.value;
  throw asError(outcome.error);
}

/** An error of the program as one of the window. */
export function asError({ code, message, detail }: ErrorFacts): AppError {
  return new AppError(code, message, { detail });
}

export function onJobReport(listener: (report: JobReport) => void): () => void {
  return window.baybook.onJobReport(listener);
}

export function onClipSettled(listener: (settled: ClipSettled) => void): () => void {
  return window.baybook.onClipSettled(listener);
}

export function onWindUp(listener: (closing: boolean) => void): () => void {
  return window.baybook.onWindUp(listener);
}

export function onFramesStopped(listener: () => void): () => void {
  return window.baybook.onFramesStopped(listener);
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

/** Has the program start the frame server, where it does not run, and send the page a port to it. */
export async function connectFrames(): Promise<void> {
  await ask('frames/connect', null);
}
