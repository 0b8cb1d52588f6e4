import { fork } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { extname, join, resolve } from 'node:path';
import { AppError } from '../model/errors.ts';
import { endWithUs } from './end-with-us.ts';
import type { FileFacts, ProbeAnswer, ProbeOrder, StandingKind } from './file-probe.ts';
import { isAbsent, readingTrouble } from './file-trouble.ts';

export type { FileFacts } from './file-probe.ts';

/**
 * How long a disk may take to show a file, ms. A file on a share whose computer is gone never opens. Whoever waits for it
 * in this process keeps one of the few threads that all reading of files shares, also when the program ends.
 */
const ANSWER_LIMIT_MS = 4000;
/** How long a process may take to start on a busy machine, ms. */
const START_LIMIT_MS = 30_000;
/** Processes kept for the next look. */
const KEPT_READY = 1;
/** How long a look waits for one that is busy, ms. One look takes a few; to start another process takes hundreds. */
const BUSY_LIMIT_MS = 100;
/** Processes that wait for ever and cannot be ended; beyond that many no more are sent after them. */
const MOST_LEFT_BEHIND = 8;

/** Beside this file, run from TypeScript as it is or from the built program. */
const ENTRY = join(import.meta.dirname, `probe-process${extname(import.meta.filename)}`);

const ready: ChildProcess[] = [];
/** Looks that wait for a process that is busy, the first come first. */
const waiting: ((child: ChildProcess) => void)[] = [];
/** Processes that are looking at a file. */
let busy = 0;
/** Ended for taking too long, and not gone yet. */
const leftBehind = new Set<ChildProcess>();

/**
 * The file at `path`, as a process of its own sees it within four seconds; null when nothing stands there. `headBytes` of
 * its beginning come along.
 *
 * @throws AppError `file-unreadable`: a folder, a pipe, a device; no right to read it; the disk does not answer.
 */
export async function findFile(path: string, headBytes = 0): Promise<FileFacts | null> {
  if (path === '') throw new AppError('file-not-found', 'No file was named. Choose one.');
  const whole = resolve(path);
  const answer = await ask({ path: whole, headBytes });
  if (answer.type === 'file') return answer.facts;
  if (answer.type === 'other')
    throw new AppError('file-unreadable', NO_FILE[answer.kind](path), { detail: { path, standing: answer.kind } });
  const refusal = { code: answer.code };
  if (isAbsent(refusal)) return null;
  throw readingTrouble(refusal, path);
}

/** The same for a file that must be there. @throws AppError `file-not-found` as well. */
export async function requireFile(path: string, headBytes = 0): Promise<FileFacts> {
  const facts = await findFile(path, headBytes);
  if (facts === null) throw readingTrouble({ code: 'ENOENT' }, path);
  return facts;
}

/** Whether trouble with a file is that something else stands in its place. */
export const isNoFile = (error: unknown): boolean => error instanceof AppError && 'standing' in error.detail;

/** Makes a process ready for the next look, so that it need not be waited for. */
export function prepareFileProbe(): void {
  if (ready.length === 0) ready.push(start());
}

const NO_FILE: Readonly<Record<Exclude<StandingKind, 'file'>, (path: string) => string>> = {
  folder: (path) => `${path} is a folder, not a file. Choose a file in it.`,
  pipe: (path) => `${path} is a pipe between programs, not a file. Choose a file.`,
  socket: (path) => `${path} is a line between programs, not a file. Choose a file.`,
  device: (path) => `${path} is a device, not a file. Choose a file.`,
};

async function ask(order: ProbeOrder): Promise<Exclude<ProbeAnswer, { readonly type: 'begun' }>> {
  if (leftBehind.size >= MOST_LEFT_BEHIND) return NO_ANSWER;
  const child = await take();
  return new Promise((done, fail) => {
    let timer = setTimeout(() => end(() => fail(new Error('no process starts that looks at files'))), START_LIMIT_MS);
    const hear = (answer: ProbeAnswer): void => {
      clearTimeout(timer);
      if (answer.type === 'begun') {
        timer = setTimeout(() => end(() => done(NO_ANSWER)), ANSWER_LIMIT_MS);
        return;
      }
      forget();
      giveBack(child);
      done(answer);
    };
    const gone = (cause?: unknown): void => {
      forget();
      const why = `the process that looks at files ended by itself (${String(cause)})`;
      fail(new Error(why, { cause }));
    };
    const end = (tell: () => void): void => {
      forget();
      leftBehind.add(child);
      child.once('exit', () => leftBehind.delete(child));
      child.kill('SIGKILL');
      if (child.connected) child.disconnect();
      tell();
    };
    const forget = (): void => {
      busy -= 1;
      clearTimeout(timer);
      child.off('message', hear).off('error', gone).off('exit', gone);
    };
    child.on('message', hear).once('error', gone).once('exit', gone);
    child.send(order);
  });
}

/** A process that is free, or soon free, else a new one. */
async function take(): Promise<ChildProcess> {
  const child = ready.pop() ?? (busy === 0 ? start() : null);
  if (child === null) return (await soonFree()) ?? take();
  busy += 1;
  return child;
}

/** One that a look is done with, handed on as busy; null when none comes free in time. */
function soonFree(): Promise<ChildProcess | null> {
  return new Promise((done) => {
    const handOn = (child: ChildProcess): void => {
      clearTimeout(timer);
      done(child);
    };
    const timer = setTimeout(() => {
      waiting.splice(waiting.indexOf(handOn), 1);
      ready.push(start());
      done(null);
    }, BUSY_LIMIT_MS);
    waiting.push(handOn);
  });
}

function giveBack(child: ChildProcess): void {
  const next = waiting.shift();
  if (next !== undefined) {
    busy += 1;
    next(child);
  } else if (ready.length < KEPT_READY) ready.push(child);
  else child.disconnect();
}

/** As a disk answers that was pulled out. */
const NO_ANSWER = { type: 'refused', code: 'ETIMEDOUT' } as const;

function start(): ChildProcess {
  const child = fork(ENTRY, [], {
    // Within Electron: its binary as a plain Node.
    env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' },
    execArgv: [],
    serialization: 'advanced',
    // None of our own lines: one that is left behind would hold them open for whoever reads from us.
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    windowsHide: true,
  });
  // It ends when its line to us does, and we do not stay for it. One that waits for a disk does not hear of it.
  const forget = endWithUs(child.pid);
  child.unref();
  child.channel?.unref();
  child.on('error', () => undefined);
  child.once('exit', () => {
    forget();
    const place = ready.indexOf(child);
    if (place >= 0) ready.splice(place, 1);
  });
  return child;
}
