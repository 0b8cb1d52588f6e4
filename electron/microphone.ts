import type { Session } from 'electron';
import { WINDOW_ORIGIN } from './origins.ts';

/**
 * The one thing that the page may be given besides its own files: sound from a microphone, and only while a talk-through is
 * recorded or about to be. No picture, no device else, no other page.
 */
export class Microphone {
  #open = false;

  allow(open: boolean): void {
    this.#open = open;
  }

  /** Answers whoever asks for a permission in this session; all but that one thing is refused. */
  guard(session: Session): void {
    session.setPermissionRequestHandler((contents, permission, answer, details) => {
      const kinds = 'mediaTypes' in details ? (details.mediaTypes ?? []) : [];
      const isSound = permission === 'media' && kinds.length === 1 && kinds[0] === 'audio';
      answer(this.#open && isSound && isOwn(contents.getURL()));
    });
    session.setPermissionCheckHandler(
      (_contents, permission, origin, details) =>
        this.#open && permission === 'media' && details.mediaType === 'audio' && isOwn(origin),
    );
  }
}

function isOwn(address: string): boolean {
  return address === WINDOW_ORIGIN || address.startsWith(`${WINDOW_ORIGIN}/`);
}
