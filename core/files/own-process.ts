import { fork } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { endWithUs } from './end-with-us.ts';

/**
 * Starts a module in a process of its own, which ends with ours however ours ends, and for which ours does not stay. It hears by
 * `process.on('message')`, also typed arrays, and ends itself on 'disconnect'. Who starts it ends it.
 */
export function startOwnProcess(entry: string): ChildProcess {
  const child = fork(entry, [], {
    // Within Electron: its binary as a plain Node.
    env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' },
    execArgv: [],
    serialization: 'advanced',
    // None of our own lines: one that is left behind would hold them open for whoever reads from us.
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    windowsHide: true,
  });
  const forget = endWithUs(child.pid);
  child.unref();
  child.channel?.unref();
  child.on('error', () => undefined);
  child.once('exit', forget);
  return child;
}
