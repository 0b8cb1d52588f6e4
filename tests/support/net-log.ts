import { readFile } from 'node:fs/promises';

/** Schemes that are answered by the program itself. */
const OWN = /^(?:baybook|clip|devtools|blob|data):/;

/**
 * Addresses that a Chromium has asked its network stack for, by the log that `--log-net-log` had it write; also those
 * that never became a connection. The log may be read while it grows, so its end may be missing.
 */
export async function requestedByChromium(path: string): Promise<string[]> {
  const text = await readFile(path, 'utf8');
  if (!text.startsWith('{"constants":')) throw new Error(`${path} is no log of Chromium's network stack`);
  const asked = [...text.matchAll(/"(?:url|host|original_url)":("(?:[^"\\]|\\.)*")/g)];
  return [...new Set(asked.map(([, quoted = '""']) => String(JSON.parse(quoted))))].filter((url) => !OWN.test(url));
}
