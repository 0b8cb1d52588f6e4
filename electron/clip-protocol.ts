import type { Session } from 'electron';
import { systemTrouble } from '../core/files/file-trouble.ts';
import { AppError, type ErrorCode } from '../core/model/errors.ts';
import { INTERNAL_SENTENCE } from './ipc/answer.ts';
import { parseFrameUrl, type FrameRequest } from './frame-url.ts';
import { CLIP_SCHEME, WINDOW_ORIGIN } from './origins.ts';

/** A picture as it goes to the window. */
export interface FramePicture {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly type: 'image/png';
}

export interface ClipProtocol {
  /** Makes a picture, or throws an AppError. */
  readonly picture: (request: FrameRequest) => Promise<FramePicture>;
  readonly onFault: (url: string, cause: unknown) => void;
}

/** Serves frames of clips to the window, as contract.ts says (`FrameUrl`). */
export function serveClips(session: Session, clips: ClipProtocol): void {
  session.protocol.handle(CLIP_SCHEME, (request) => answerFrame(request.method, request.url, clips));
}

/** The answer to one address; never rejects. */
export async function answerFrame(method: string, url: string, clips: ClipProtocol): Promise<Response> {
  if (method !== 'GET') return refusal(405, 'bad-request', 'Frames can only be read.');
  const request = parseFrameUrl(url);
  if (request === null) return refusal(404, 'no-such-frame', 'This is not the address of a frame.');
  try {
    const { bytes, type } = await clips.picture(request);
    return new Response(bytes, {
      headers: {
        ...OWN_PAGE_ONLY,
        'content-type': type,
        'content-length': String(bytes.byteLength),
        // A clip's bytes never change under its id, so neither does the picture of a frame.
        'cache-control': 'private, max-age=31536000, immutable',
      },
    });
  } catch (cause) {
    if (cause instanceof AppError) return refusal(STATUS_OF[cause.code] ?? 500, cause.code, cause.message);
    clips.onFault(url, cause);
    const told = systemTrouble(cause);
    return told instanceof AppError
      ? refusal(500, told.code, told.message)
      : refusal(500, 'internal', INTERNAL_SENTENCE);
  }
}

const STATUS_OF: Readonly<Partial<Record<string, number>>> = { 'no-such-record': 404, 'no-such-frame': 404 };

/** Without this the page could show a frame but not read its pixels back from a canvas. */
const OWN_PAGE_ONLY = { 'access-control-allow-origin': WINDOW_ORIGIN, 'x-content-type-options': 'nosniff' };

/** The code travels in a header, so that the window can offer the next step: a moved clip is looked for again. */
function refusal(status: number, code: ErrorCode, sentence: string): Response {
  return new Response(sentence, {
    status,
    headers: {
      ...OWN_PAGE_ONLY,
      'content-type': 'text/plain; charset=utf-8',
      'cache-control': 'no-store',
      'x-baybook-code': code,
      'access-control-expose-headers': 'x-baybook-code',
    },
  });
}
