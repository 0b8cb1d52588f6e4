import { protocol } from 'electron';
import { CLIP_SCHEME, WINDOW_SCHEME } from './origins.ts';

/**
 * Makes both schemes act like a web origin. To be called before Electron is ready. An own scheme for the page, and not
 * file:, because a file: page may read any other file of the disk.
 */
export function registerSchemes(): void {
  const privileges = { standard: true, secure: true, supportFetchAPI: true, stream: true };
  protocol.registerSchemesAsPrivileged([
    { scheme: WINDOW_SCHEME, privileges: { ...privileges, codeCache: true } },
    // corsEnabled: the page is of another origin than the frames, and draws them on a canvas that it reads back.
    { scheme: CLIP_SCHEME, privileges: { ...privileges, corsEnabled: true } },
  ]);
}
