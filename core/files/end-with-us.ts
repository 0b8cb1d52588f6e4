import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { Socket } from 'node:net';

/**
 * Reads "+ PID" and "- PID" until its input ends, which it does with the process at the other end, however that ended;
 * then it ends those that are left. What ends a whole terminal or session does not end it.
 */
const SCRIPT = `trap '' INT HUP TERM
kept=
while read -r change pid; do
  left=
  for one in $kept; do [ "$one" = "$pid" ] || left="$left $one"; done
  [ "$change" = + ] && left="$left $pid"
  kept=$left
done
for one in $kept; do kill -9 "$one"; done`;

let watcher: ChildProcess | null = null;

/**
 * Has a process ended when ours ends, also by a signal that nobody can catch (kill -9, no memory left); returns how to
 * forget it, for when it has ended. A child does not notice by itself: ffmpeg reads and writes on, and what waits for a
 * disk hears nothing.
 *
 * A shell of its own watches: systems have no common way to tie one process to another. On Windows none is needed; Node
 * puts all that it starts into a job that the system ends together with it.
 */
export function endWithUs(pid: number | undefined): () => void {
  if (pid === undefined || process.platform === 'win32') return () => undefined;
  tell(`+ ${pid}`);
  return () => tell(`- ${pid}`);
}

function tell(line: string): void {
  watcher ??= startWatcher();
  watcher.stdin?.write(`${line}\n`);
}

function startWatcher(): ChildProcess {
  // In a group of its own, so that a kill of the whole of ours leaves it time to do its work.
  const child = spawn('/bin/sh', ['-c', SCRIPT], { detached: true, stdio: ['pipe', 'ignore', 'ignore'] });
  child.unref();
  if (child.stdin instanceof Socket) child.stdin.unref();
  // Without it things are as they were: children are ended wherever we are told of our own end.
  child.on('error', () => undefined);
  child.stdin.on('error', () => undefined);
  return child;
}
