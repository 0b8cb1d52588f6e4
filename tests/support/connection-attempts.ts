/**
 * What strace wrote about network calls, read. An attempt is any address that is not this machine's own loopback, and on
 * loopback a question for a name (port 53): a resolver would carry it on. Families are trusted only where they are known
 * to stay on this machine.
 */

/** One call and where it went, as a failing test shows it: `connect 192.0.2.1 port 53`. */
export function connectionAttempts(trace: string): string[] {
  return trace.split('\n').flatMap((line) => {
    const call = /^(?:\d+\s+)?(\w+)\(/.exec(line)?.[1];
    if (call === undefined) return [];
    // Calls handed over through it could not be seen.
    if (call === 'io_uring_setup') return ['io_uring_setup'];
    return [...line.matchAll(ADDRESS)]
      .map(([, family = '', rest = '']) => destination(family, rest))
      .filter((place) => place !== null)
      .map((place) => `${call} ${place}`);
  });
}

const ADDRESS = /\{sa_family=(\w+)([^}]*)\}/g;
/** Between processes of this machine; the kernel itself; "nowhere any more". */
const STAYS_HERE = new Set(['AF_UNIX', 'AF_NETLINK', 'AF_UNSPEC']);
/** Services of this machine that look up names for others. */
const RESOLVER = /resolve|avahi|nscd/i;
const DNS_PORTS = new Set(['53', '853', '5353']);

/** Where an address leads, or null where that is nowhere but this machine. */
function destination(family: string, rest: string): string | null {
  if (family === 'AF_INET' || family === 'AF_INET6') {
    const host = /(?:inet_addr|inet_pton)\((?:AF_INET6, )?"([^"]*)"/.exec(rest)?.[1] ?? 'somewhere';
    const port = /sin6?_port=htons\((\d+)\)/.exec(rest)?.[1] ?? 'unknown';
    return isLoopback(host) && !DNS_PORTS.has(port) ? null : `${host} port ${port}`;
  }
  if (family === 'AF_UNIX' && RESOLVER.test(rest)) return rest.replace(/^, /, '');
  return STAYS_HERE.has(family) ? null : `${family}${rest}`;
}

function isLoopback(host: string): boolean {
  return /^(?:::ffff:)?127\.\d+\.\d+\.\d+$/.test(host) || host === '::1';
}
