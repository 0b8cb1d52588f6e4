import type { CommandLine, Session } from 'electron';

/**
 * A name that no resolver may ever answer (RFC 6761), and nobody is asked for it: see the rules below. Electron needs
 * a proxy's address, and a connection that must go through a proxy without one ends before any packet.
 */
const NO_PROXY_ANSWERS = 'socks5://closed.invalid:1';

/**
 * Leaves Chromium's network stack no way out, whoever asks: the page, a session that nobody guards, or Chromium itself.
 * Names and addresses are found by none, and every connection would go through a proxy that is not there, loopback
 * included. That also holds for peer connections, which no request handler sees. Our own schemes go another way.
 *
 * To be called before Electron is ready.
 */
export function closeNetwork(commandLine: CommandLine): void {
  commandLine.appendSwitch('host-resolver-rules', 'MAP * ~NOTFOUND');
  commandLine.appendSwitch('proxy-server', NO_PROXY_ANSWERS);
  commandLine.appendSwitch('proxy-bypass-list', '<-loopback>');
}

/**
 * Without a language there is no dictionary to fetch. Chromium asks for one with the first window of a session, whether
 * or not spelling is checked, so this comes before it.
 */
export function wantNoDictionary(session: Session): void {
  session.setSpellCheckerEnabled(false);
  session.setSpellCheckerLanguages([]);
}
