import { rmSync } from 'node:fs';
import { chmod, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { meetNeeds, WATCH_NEEDS } from '../../electron/bare-machine/debian-packages.ts';
import type { LaunchOptions } from '../e2e/launch.ts';
import { connectionAttempts } from './connection-attempts.ts';

/** Watches a program and all that it starts, from its first instruction on, for anything that would leave this machine. */
export interface ConnectionWatch {
  /** Of the watch alone, gone after `close`; other logs may be put there. */
  readonly folder: string;
  /** What a launch needs to be watched. */
  readonly launch: Pick<LaunchOptions, 'startedBy' | 'environment'>;
  /** Every attempt so far, in order. */
  attempts(): Promise<readonly string[]>;
  /** How many calls were looked at so far: none means that nothing was watched. */
  calls(): Promise<number>;
  close(): Promise<void>;
}

/** Names the file that the watch writes to; the program that is watched has it in its environment. */
const TRACE_VARIABLE = 'BAYBOOK_TEST_TRACE';
/** Every way to say where something is to go; an answer on an open connection needs no address. */
const CALLS = 'connect,sendto,sendmsg,sendmmsg,io_uring_setup';

/**
 * The kernel is asked (strace): it sees each process, each library and each kind of socket, without rights of a
 * superuser and without a network namespace, which a container may not make. `-D` leaves the program itself the child
 * that was started; the filter stops only the calls that are looked at, so that the program keeps its pace.
 */
export async function openConnectionWatch(): Promise<ConnectionWatch> {
  if (process.platform !== 'linux') throw new Error('Connections are watched by strace, which only Linux has.');
  await meetNeeds(WATCH_NEEDS, () => undefined);
  const folder = await mkdtemp(join(tmpdir(), 'baybook-watch-'));
  const trace = join(folder, 'trace');
  await writeFile(trace, '');
  const read = (): Promise<string> => readFile(trace, 'utf8');
  return {
    folder,
    launch: { startedBy: makeStarter, environment: { [TRACE_VARIABLE]: trace } },
    attempts: async () => connectionAttempts(await read()),
    calls: async () => (await read()).split('\n').length - 1,
    close: () => rm(folder, { recursive: true, force: true }),
  };
}

/** One for all watches of a test file: its driver asks only once where Electron is. */
let starter: Promise<string> | null = null;

function makeStarter(electron: string): Promise<string> {
  starter ??= writeStarter(electron);
  return starter;
}

async function writeStarter(electron: string): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'baybook-starter-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  const path = join(folder, 'electron');
  // Data is left out: it is long, it is nobody's business, and it could look like an address.
  const watch = `strace -D -f -qq --seccomp-bpf -s 0 -e signal=none -e trace=${CALLS} -o "$${TRACE_VARIABLE}"`;
  await writeFile(path, `#!/bin/sh\nexec ${watch} "${electron}" "$@"\n`);
  await chmod(path, 0o755);
  return folder;
}
