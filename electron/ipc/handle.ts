import { ipcMain, type IpcMainEvent, type IpcMainInvokeEvent, type WebContents } from 'electron';
import { say } from '../../core/model/say.ts';
import { AppError } from '../../core/model/errors.ts';
import { answer, refusal, type Handlers } from './answer.ts';
import {
  CLIP_SETTLED_CHANNEL,
  DROPPED_FILE_CHANNEL,
  FRAMES_STOPPED_CHANNEL,
  JOB_REPORT_CHANNEL,
  REQUEST_CHANNEL,
  WIND_UP_CHANNEL,
} from './channels.ts';
import type { ClipSettled, JobReport } from './contract.ts';

/** The only file that listens to the window (a lint rule). */

export interface RequestDesk {
  readonly handlers: Handlers;
  /** Where our window's page comes from; a frame of any other origin is not answered. */
  readonly windowOrigin: string;
  /** Told the path of each file the coach dropped on, or picked in, the window. */
  readonly onDroppedFile: (path: string) => void;
  /** Told of every fault of our own, to log it. */
  readonly onFault: (name: string, cause: unknown) => void;
}

/** Starts answering; returns how to stop. */
export function answerWindow(desk: RequestDesk): () => void {
  ipcMain.handle(REQUEST_CHANNEL, (event, name: unknown, input: unknown) => {
    if (!isOwnPage(event, desk.windowOrigin))
      return refusal(new AppError('bad-request', say`Only the window of Baybook may ask this.`));
    return answer(desk.handlers, name, input, desk.onFault);
  });
  const onDropped = (event: IpcMainEvent, path: unknown): void => {
    if (isOwnPage(event, desk.windowOrigin) && typeof path === 'string' && path !== '') desk.onDroppedFile(path);
  };
  ipcMain.on(DROPPED_FILE_CHANNEL, onDropped);
  return () => {
    ipcMain.removeHandler(REQUEST_CHANNEL);
    ipcMain.off(DROPPED_FILE_CHANNEL, onDropped);
  };
}

/** Sends a report to the window, or drops it when the window is gone. */
export function sendJobReport(contents: WebContents, report: JobReport): void {
  tell(contents, JOB_REPORT_CHANNEL, report);
}

/** The same for a clip whose frame table was settled. */
export function sendClipSettled(contents: WebContents, settled: ClipSettled): void {
  tell(contents, CLIP_SETTLED_CHANNEL, settled);
}

/** Tells the page that the window is to close, or that it stays open after all. */
export function sendWindUp(contents: WebContents, closing: boolean): void {
  tell(contents, WIND_UP_CHANNEL, closing);
}

/** Tells the page that no pictures come until it asks for a port again. */
export function sendFramesStopped(contents: WebContents): void {
  tell(contents, FRAMES_STOPPED_CHANNEL, null);
}

function tell(contents: WebContents, channel: string, told: unknown): void {
  if (!contents.isDestroyed()) contents.send(channel, told);
}

/** Whether the asker is the main frame of a page of ours; a frame that is gone is not. */
function isOwnPage(event: IpcMainEvent | IpcMainInvokeEvent, windowOrigin: string): boolean {
  const frame = event.senderFrame;
  return frame !== null && frame.parent === null && frame.url.startsWith(`${windowOrigin}/`);
}
