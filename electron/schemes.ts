import { protocol } from 'electron';
import { WINDOW_SCHEME } from './origins.ts';

/**
 * Makes the window's scheme act like a web origin. To be called before Electron is ready. An own scheme for the page, and not
 * file:, because a file: page may read any other file of the disk.
 */
export function registerSchemes(): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true };
  protocol.registerSchemesAsPrivileged([{ scheme: WINDOW_SCHEME, privileges }]);
}
