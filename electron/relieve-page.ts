import { setTimeout as rest } from 'node:timers/promises';
import type { WebContents } from 'electron';

/** After a place of the page is left, until the page has let go of what was there, ms. */
const LETTING_GO_MS = 1000;

/**
 * Has a page give back the memory that it keeps for later: the heaps of its threads are swept and its caches emptied, as
 * when the machine runs short. Nothing else asks for it: left alone, a page keeps the most that it ever needed.
 */
export async function relievePage(contents: WebContents): Promise<void> {
  await rest(LETTING_GO_MS);
  if (contents.isDestroyed() || contents.debugger.isAttached()) return;
  try {
    contents.debugger.attach('1.3');
    await contents.debugger.sendCommand('Memory.simulatePressureNotification', { level: 'critical' });
  } catch {
    // The page went meanwhile, or somebody looks into it: what it keeps it keeps.
  } finally {
    if (!contents.isDestroyed() && contents.debugger.isAttached()) contents.debugger.detach();
  }
}
