/**
 * What can happen to a user, as codes. Each has one sentence for people, made where it is thrown, that says what
 * happened and what to do. Misuse by our own code throws a plain Error instead.
 */
export const ERROR_CODES = [
  'file-not-found',
  'file-empty',
  'file-unreadable',
  'too-large',
  'not-a-clip',
  'no-video',
  'format-refused',
  'clip-damaged',
  'no-such-frame',
  'ffmpeg-missing',
  'ffmpeg-failed',
  'timed-out',
  'cancelled',
  'file-exists',
  'disk-full',
  'not-writable',
  'not-printed',
  'pictures-stopped',
  'clip-moved',
  'clip-changed',
  'clip-coming',
  'swing-file-invalid',
  'swing-file-newer',
  'goals-file-invalid',
  'goals-file-newer',
  'talk-file-invalid',
  'talk-file-newer',
  'book-newer',
  'book-damaged',
  'book-missing',
  'book-lock-damaged',
  'book-in-use',
  'no-such-record',
  'bad-request',
  'bad-arguments',
  'runtime-missing',
  'internal',
] as const;
export type ErrorCode = (typeof ERROR_CODES)[number];

/** Facts beside the sentence, for a log or a bug report; never shown as is. */
export type ErrorDetail = Readonly<Record<string, string | number | boolean | null>>;

/** An error with a code and a sentence for people. `message` is that sentence. */
export class AppError extends Error {
  override readonly name = 'AppError';
  readonly code: ErrorCode;
  readonly detail: ErrorDetail;

  constructor(code: ErrorCode, message: string, options: { cause?: unknown; detail?: ErrorDetail } = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.code = code;
    this.detail = options.detail ?? {};
  }
}
