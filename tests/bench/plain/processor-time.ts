import { readFileSync } from 'node:fs';

/** Of a tick in /proc, ms: Linux tells programs 100 a second, whatever its own clock is (proc(5), sysconf(3)). */
const TICK_MS = 10;
/** Times of children that have ended, in user and in system code: fields 16 and 17, counted behind the name (proc(5)). */
const CHILD_FIELDS = [13, 14] as const;

/** Milliseconds that this process and the children it has waited for have worked; null where the system does not tell. */
export function processorTime(): number | null {
  try {
    const text = readFileSync('/proc/self/stat', 'latin1');
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
    const children = CHILD_FIELDS.reduce((sum, place) => sum + Number(fields[place]) * TICK_MS, 0);
    const { user, system } = process.cpuUsage();
    return children + (user + system) / 1000;
  } catch {
    return null;
  }
}

export function between(before: number | null, after: number | null): number | null {
  return before === null || after === null ? null : after - before;
}
