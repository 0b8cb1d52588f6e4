import { app } from 'electron';
import { isDiskSilent } from '../core/files/unless-silent.ts';

/** How long letting go of everything may take, ms; what is saved is on the disk before it begins. */
const CLOSE_LIMIT_MS = 6000;

/**
 * Ends the program once `closing` has let go of everything, or six seconds later. Where something still waits for a disk
 * that does not answer, an orderly end would wait with it for ever: the program then ends as by a kill.
 */
export async function endProgram(closing: Promise<void>): Promise<void> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => (timer = setTimeout(() => resolve(true), CLOSE_LIMIT_MS)));
  const isLate = await Promise.race([closing.then(() => false).catch(() => false), late]);
  clearTimeout(timer);
  if (isLate || isDiskSilent()) process.kill(process.pid, 'SIGKILL');
  // exit, not a second quit: that one waits for ever on Electron 33, and all that it would close is closed.
  app.exit(0);
}
