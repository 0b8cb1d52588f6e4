import { setTimeout as rest } from 'node:timers/promises';
import { ROWS, SAME_AGAIN } from '../bars.ts';
import type { BenchRun } from '../bench-run.ts';
import { meets } from '../figures.ts';
import { ratio } from '../statistics.ts';
import { readUsage, waitForQuiet } from './processes.ts';
import type { Usage } from './processes.ts';
import type { Session } from './session.ts';

/** How long what is not needed any more may stay: decoders that wait for another wish, a heap that is swept later. */
const SETTLE_MS = 8000;
const LOOK_MS = 1000;

/** What the program takes once it has come to rest after closing; as soon as it is back where it was, else at the end. */
export async function usageAtRest({ pid }: Session, before: Usage | null): Promise<Usage | null> {
  await waitForQuiet(pid);
  let usage = await readUsage(pid);
  for (const end = performance.now() + SETTLE_MS; performance.now() < end; usage = await readUsage(pid)) {
    if (before !== null && usage !== null && isBack(usage, before)) break;
    await rest(LOOK_MS);
  }
  return usage;
}

function isBack(usage: Usage, before: Usage): boolean {
  const parts = ['memory', 'handles', 'processes'] as const;
  return parts.every((part) => meets(ratio(usage[part], before[part]), SAME_AGAIN));
}

export function enterClosing(run: BenchRun, clip: string, before: Usage | null, after: Usage | null): void {
  const { memory, handles, processes } = ROWS.memory.each;
  run.enter(memory, clip, ratio(after?.memory ?? null, before?.memory ?? null));
  run.enter(handles, clip, ratio(after?.handles ?? null, before?.handles ?? null));
  run.enter(processes, clip, ratio(after?.processes ?? null, before?.processes ?? null));
}

/** Looks at the memory again and again while something goes on; returns the most. */
export async function mostMemory({ pid }: Session, work: () => Promise<void>): Promise<number | null> {
  let [most, working] = [0, true];
  const watching = (async () => {
    for (; working; await rest(LOOK_MS / 4)) most = Math.max(most, (await readUsage(pid))?.memory ?? 0);
  })();
  try {
    await work();
  } finally {
    working = false;
    await watching;
  }
  return most === 0 ? null : most;
}
