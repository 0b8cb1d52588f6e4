import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { Session } from 'electron';
import { WINDOW_ORIGIN, WINDOW_SCHEME } from './origins.ts';

/**
 * What the page may do, in the browser's own terms: its own files, nothing from anywhere else, no
 * code made from text. Styles are allowed inline because the widget library adds its own style element.
 */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self' data:",
  "img-src 'self' blob: data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const MEDIA_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.json': 'application/json; charset=utf-8',
};

/** Serves the built page from `folder` under the window's own scheme. */
export function serveWindowFiles(session: Session, folder: string): void {
  session.protocol.handle(WINDOW_SCHEME, async (request) => {
    const path = windowFilePath(request.url);
    const type = path === null ? undefined : MEDIA_TYPES[extname(path)];
    if (path === null || type === undefined) return notFound();
    try {
      const bytes = await readFile(join(folder, path));
      return new Response(new Uint8Array(bytes), {
        headers: {
          'content-type': type,
          'content-security-policy': CONTENT_SECURITY_POLICY,
          'x-content-type-options': 'nosniff',
          'cross-origin-opener-policy': 'same-origin',
        },
      });
    } catch {
      return notFound();
    }
  });
}

/**
 * The file within the window's folder that an address names, or null. Only plain names of letters, digits, '-', '_' and
 * '.' that do not begin with a dot pass, so nothing can climb out of the folder.
 */
export function windowFilePath(url: string): string | null {
  const prefix = `${WINDOW_ORIGIN}/`;
  if (!url.startsWith(prefix)) return null;
  const path = (url.slice(prefix.length).split(/[?#]/)[0] ?? '') || 'index.html';
  return /^(?:[\w-][\w.-]*\/)*[\w-][\w.-]*$/.test(path) ? path : null;
}

function notFound(): Response {
  return new Response('There is no such file.', { status: 404, headers: { 'content-type': 'text/plain' } });
}
